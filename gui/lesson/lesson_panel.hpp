#pragma once

#include <imgui/imgui.h>

#include <SFML/Graphics/Rect.hpp>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "gui/bench/bench.hpp"
#include "gui/lesson/answer_form.hpp"
#include "gui/lesson/diary.hpp"
#include "gui/lesson/tutor.hpp"
#include "sim/lesson/shelf.hpp"

namespace sixty::gui {

/// Lessons in the window: the list of them, and the one that is being taken, step by step.
class LessonPanel {
 public:
  /// What it asks of the window.
  struct Wish {
    bool closes = false, hunts = false;
    std::string begin;                     ///< file of a lesson
    std::optional<std::string> learner;    ///< another name has been given
    std::optional<explain::Question> why;  ///< to be answered
    bool looks = false;                    ///< to where the step wants it
  };

  /// The list of a folder's lessons, or the lesson that was being taken.
  void open(const std::string& folder, const std::string& language, const std::string& learner);
  void close();
  /// Words are in another language from now on.
  void speaks(const std::string& language);
  bool is_open() const { return open_; }
  /// Why hands do nothing now; empty: they do as they like.
  std::string holds_hands() const;
  /// Something of it is to be chosen: arrows, space and tab go from field to field.
  bool chooses() const;
  /// The key for what comes next: to the end of what is shown, or on.
  void press_on() { pressed_on_ = true; }
  /// Begins a lesson, with that step. Order: its scene is on the bench.
  void begin(const lesson::Opened& opened, Bench& bench, std::size_t first = 0);
  /// Whatever lesson is being taken is given up; the list of them is shown again.
  void leave();
  /// A file could not be opened.
  void tell(std::vector<Diagnostic> mistakes) { mistakes_ = std::move(mistakes); }
  /// Takes what is known by now, and stops the run where the step ends.
  void follow(Bench& bench);
  Wish show(Bench& bench, const sf::FloatRect& box, ImFont* heading);

  Diary& diary() { return diary_; }
  /// The step that is being taken; nullptr: none is.
  const lesson::Step* step() const {
    return sitting_ == nullptr || sitting_->is_over() ? nullptr : &sitting_->now();
  }
  const lesson::Sitting* sitting() const { return sitting_.get(); }
  const Tutor::Told& told() const { return told_; }
  bool is_busy() const { return open_ && tutor_ != nullptr && tutor_->is_busy(); }
  /// For tests and pictures.
  void wait() const {
    if (tutor_ != nullptr) tutor_->wait();
  }

 private:
  enum class Phase : std::uint8_t { kRuns, kAsks, kReveals, kWorks, kDone };
  void enter(Bench& bench);
  void put_run(Bench& bench);
  void go_on(Bench& bench);
  void go_back(Bench& bench);
  void run_to_the_end(Bench& bench) const;
  void follow_goal(Bench& bench);
  bool has_come(const Bench& bench) const;
  void show_list(Wish& wish);
  void show_step(Bench& bench, ImFont* heading);
  void show_question(Bench& bench);
  void show_verdict() const;
  void show_goal() const;
  void show_hints();
  void show_buttons(Bench& bench);
  void go_on_by_key(Bench& bench);
  void show_result(ImFont* heading);

  void keep_fared();
  void look_up_mastered();

  bool open_ = false;
  Diary diary_;
  std::string name_;      ///< of the learner, as it is being written
  std::size_t kept_ = 0;  ///< of what the sitting fared
  std::string language_ = "en";
  std::vector<lesson::Listed> listed_;
  std::map<std::string, practice::Mastery> mastered_;  ///< of the learner's lessons
  bool pressed_on_ = false;
  std::vector<Diagnostic> mistakes_;
  std::unique_ptr<lesson::Sitting> sitting_;
  std::unique_ptr<Tutor> tutor_;
  Tutor::Told told_;
  AnswerForm form_;
  Phase phase_ = Phase::kDone;
  SimTime begun_ = 0, looked_ = -1;    ///< when the step began; up to where the goal was looked for
  std::uint64_t entry_ = 0, run_ = 0;  ///< numbers of the tutor's entry and of the run
  std::map<std::size_t, std::string> heads_;  ///< of steps, as they were told
  bool looks_ = false, asks_why_ = false;
};

}  // namespace sixty::gui
