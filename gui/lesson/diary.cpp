#include "gui/lesson/diary.hpp"

#include <fmt/chrono.h>

#include <cstdlib>
#include <ctime>
#include <utility>

#include "sim/tour/saying.hpp"
#include "sim/words/words.hpp"

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

std::optional<practice::Progress> Diary::progress() const {
  if (learner_.empty()) return std::nullopt;
  return learners_.read(learner_, told_);
}

void Diary::keep(const practice::Progress& progress) {
  std::string error;
  if (!learners_.write(progress, error)) told_ = say("What was done could not be kept: {}", error);
}

void Diary::add(const lesson::Lesson& lesson, const lesson::Fared& fared) {
  auto progress = this->progress();
  if (!progress) return;
  const lesson::Step& step = lesson.steps[fared.step];
  const std::string name = step.name.empty() ? "step " + std::to_string(fared.step + 1) : step.name;
  progress->steps.push_back(
      {lesson.id, english(lesson.topic), name, fared.right, fared.hints, now_text()});
  keep(*progress);
}

void Diary::add(practice::HuntTaken taken) {
  auto progress = this->progress();
  if (!progress) return;
  taken.when = now_text();
  progress->hunts.push_back(std::move(taken));
  keep(*progress);
}

}  // namespace sixty::gui
