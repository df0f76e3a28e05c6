#pragma once

#include <memory>
#include <string>
#include <utility>
#include <vector>

#include "gui/bench/bench.hpp"
#include "gui/bench/hunt_findings.hpp"
#include "gui/bench/hunt_known.hpp"
#include "gui/lesson/practice_page.hpp"
#include "gui/views/suspects.hpp"

namespace sixty::gui {

/// The fault hunt: what was noticed, what explains it, and what to look at next, for the scene that
/// is on the bench.
class HuntPanel {
 public:
  /// Begins, or goes on where it was. Order: the registry outlives it.
  void open(const Registry& registry, const diagnose::LibraryPlan& plan, const std::string& cache);
  /// What was noticed stays; a library that is not ready is given up.
  void close();
  bool is_open() const { return open_; }
  /// What can be wrong with one part is offered. Order: it is open.
  void point_at(PartId part);
  /// Takes what is known by now.
  void follow();
  /// Returns the part of a suspect that has been chosen.
  std::optional<PartId> show(const Bench& bench, const sf::FloatRect& box, ImFont* heading);
  /// A hidden fault is to be found by hand, without help. Order: it is open.
  void practise() { practises_ = true; }
  /// What the page for practice has asked for since this was asked.
  PracticePage::Wish take_practice() { return std::exchange(practice_wish_, {}); }
  const PracticePage& practice() const { return practice_; }
  /// The suspects of what was noticed, the likeliest first.
  std::vector<SuspectMark> marks() const;
  /// It answers at any moment; not while the library is made, which takes minutes.
  bool is_busy() const {
    return open_ && is_ready() && (told_.busy || looks_ > 0 || practice_.is_busy());
  }

  const HuntNotes& notes() const { return notes_; }
  const Hunter::Told& told() const { return told_; }

 private:
  enum class Page : std::uint8_t { kNone, kNoticed };
  const std::vector<Injection>& hidden_now(const Bench& bench);
  void show_stage() const;
  void show_pages(const Bench& bench, std::optional<PartId>& chosen);
  void show_noticed(const std::vector<Injection>& hidden);
  void show_next(const std::vector<Injection>& hidden);
  void show_file();
  void show_foot() const;
  void look(Hunter::Look how, const std::string& title, std::vector<std::size_t> signs,
            std::vector<Injection> hidden);
  void keep();
  void take();
  void print();
  bool may_write(const std::string& path);
  bool has_verdict() const { return told_.verdict != nullptr; }
  bool is_ready() const { return told_.stage == Hunter::Stage::kReady; }

  /// What is hidden, and what it was found from.
  struct Hidden {
    bool hides = false;
    std::shared_ptr<const std::vector<Action>> log;
    std::size_t due = 0;  ///< actions of the log that have been done by now
    std::vector<Injection> faults;
  };
  bool open_ = false, practises_ = false;
  Hidden hidden_;
  std::unique_ptr<Hunter> hunter_;
  Hunter::Told told_;
  HuntNotes notes_;
  std::uint64_t weighed_ = 0;            ///< version of the notes
  std::uint64_t looks_ = 0, asked_ = 0;  ///< the look that is waited for, 0: none; how many
  std::string look_title_;
  HuntForm form_;
  HuntKnown known_;
  HuntSuspects suspects_;
  HuntChecks checks_;
  PracticePage practice_;
  PracticePage::Wish practice_wish_;
  const Registry* registry_ = nullptr;  ///< from open() on
  Page turns_to_ = Page::kNone;
  std::string path_, said_;
  std::vector<std::string> own_files_;  ///< that may be written over
  std::vector<Diagnostic> mistakes_;
};

/// Faults that have been put in and not been cleared, while what is wrong is hidden.
std::vector<Injection> hidden_faults(const Bench& bench);

}  // namespace sixty::gui
