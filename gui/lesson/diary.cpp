#include "gui/lesson/diary.hpp"

#include <fmt/chrono.h>

#include <cstdlib>
#include <ctime>
#include <utility>

#include "sim/tour/saying.hpp"

namespace sixty::gui {
namespace {

std::string usual_folder() {
  const char* chosen = std::getenv("XDG_DATA_HOME");
  return practice::learners_folder(chosen == nullptr ? "" : chosen);
}

/// ISO 8601, by the machine's clock.
std::string now_text() {
  return fmt::format("{:%Y-%m-%dT%H:%M:%S}", fmt::localtime(std::time(nullptr)));
}

std::string english(const Sayings& sayings) {
  std::string words;
  for (const Saying::Piece& piece : in_language(sayings, "en").pieces) words += piece.words;
  return words;
}

}  // namespace

Diary::Diary(std::string folder) : learners_(folder.empty() ? usual_folder() : std::move(folder)) {}

bool Diary::open(const std::string& learner) {
  if (!learner.empty() && !practice::is_learner(learner)) return false;
  learner_ = learner;
  told_.clear();
  return true;
}

practice::Progress Diary::progress() const {
  return learner_.empty() ? practice::Progress{} : learners_.read(learner_, told_);
}

void Diary::keep(const practice::Progress& progress) {
  std::string error;
  if (!learners_.write(progress, error)) told_ = "What was done could not be kept: " + error;
}

void Diary::add(const lesson::Lesson& lesson, const lesson::Fared& fared) {
  if (learner_.empty()) return;
  const lesson::Step& step = lesson.steps[fared.step];
  practice::Progress progress = this->progress();
  progress.steps.push_back(
      {lesson.id, english(lesson.topic), english(step.head), fared.right, fared.hints, now_text()});
  keep(progress);
}

void Diary::add(practice::HuntTaken taken) {
  if (learner_.empty()) return;
  practice::Progress progress = this->progress();
  taken.when = now_text();
  progress.hunts.push_back(std::move(taken));
  keep(progress);
}

}  // namespace sixty::gui
