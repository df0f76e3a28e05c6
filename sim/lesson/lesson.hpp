#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/explain/answer.hpp"
#include "sim/lesson/condition.hpp"
#include "sim/tour/tour.hpp"

namespace sixty::lesson {

/// A number that words of a lesson hold, computed from the run as it is in the step that says it.
struct NamedFact {
  std::string name;
  Fact fact;
  std::optional<SimTime> from, to;  ///< none: the step's own
};

/// One of the answers that can be chosen.
struct Choice {
  Sayings text, says;  ///< `says`: what is said to who has chosen it; may be empty
  bool right = false;
  std::string go;  ///< name of the step that follows; empty: the next
};

/// Something that happens within a step, to be put in order with others.
struct Item {
  Sayings text;
  Happening happening;
};

/// What is asked before it is shown.
struct Question {
  enum class Kind : std::uint8_t { kChoice, kNumber, kPart, kOrder };
  Kind kind = Kind::kChoice;
  std::vector<Choice> choices;
  std::size_t number = 0;          ///< of the lesson's facts
  std::string unit;                ///< in which the number is asked for, as people write it
  double within = 0;               ///< SI, or a share of the number
  bool by_share = false;           ///< `within` is one
  std::vector<PartId> parts;       ///< any of them is right
  std::vector<Item> items;         ///< as they are shown; the run alone tells their order
  Sayings right, wrong;            ///< said to either; may be empty
  std::string if_right, if_wrong;  ///< steps that follow; empty: the next
};

/// What hands are to bring about.
struct Task {
  std::vector<Condition> goal;  ///< all of them at once
  std::vector<PartId> only;     ///< parts that hands may work on; empty: all
  bool keeps = false;           ///< what was done stays done in later steps
  Sayings right;                ///< said when it is so
  std::vector<Action> model;    ///< a way of bringing it about
  SimTime model_at = 0;         ///< when it is so then
};

/// One step of a lesson.
struct Step : Stop {
  enum class Kind : std::uint8_t { kShow, kAsk, kTask, kExplain };
  Kind kind = Kind::kShow;
  std::string name;
  int line = 0;                   ///< in the file
  std::optional<SimTime> at, to;  ///< the run is put to `at`, and goes on to `to`
  std::vector<Action> deeds;      ///< of the lesson's own, from this step on
  Sayings after;                  ///< said when the run has come to `to`
  std::vector<Sayings> hints;     ///< each tells more than the one before
  std::vector<Condition> proves;  ///< that is so between `at` and `to`, or the lesson is wrong
  std::string go;                 ///< name of the step that follows; empty: the next
  Question question;              ///< of what is asked
  Task task;                      ///< of what is to be done
  std::optional<explain::Question> why;  ///< of what is explained
};

/// All words of a step.
std::vector<const Sayings*> words_of(const Step& step);

/// Words with figures in them that are no number of the run, or one that is proved elsewhere.
struct Stated {
  std::string words, why;
  std::optional<Condition> condition;
  Span span;
};

/// A lesson, checked against its scene. It says only what is to be looked at, asked and done: what
/// is right is found by running it.
struct Lesson {
  std::string id;  ///< the file's name without folder and ending
  Sayings title, topic;
  int number = 0;
  double minutes = 10;  ///< that it takes
  std::string scene;
  std::vector<NamedFact> facts;
  std::vector<Stated> stated;
  std::vector<Step> steps;

  /// The step of a name. Range: there is one.
  std::size_t step_of(const std::string& name) const;
  /// What follows a step when nothing leads elsewhere; one past the last behind the last.
  std::size_t next_of(std::size_t step, const std::string& go) const;
};

/// Whether that is the text of one.
bool is_lesson(const YamlNode& root);
/// Holds that text against its scene, which lies beside the file or one folder above.
/// Errors: reported with their places.
void check_lesson(const YamlNode& root, const std::string& path, const Registry& registry,
                  Diagnostics& diagnostics);

/// A lesson with the installation that it is of.
struct Opened {
  std::shared_ptr<const Installation> installation;
  std::shared_ptr<const Lesson> lesson;
};
/// Errors: reported with their places, and nothing is in it.
Opened open_lesson(const std::string& path, const Registry& registry, Diagnostics& diagnostics);

}  // namespace sixty::lesson
