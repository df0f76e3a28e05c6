#include "sim/lesson/lesson.hpp"

#include <algorithm>

#include "sim/lesson/reader.hpp"

namespace sixty::lesson {
namespace {

std::shared_ptr<const Lesson> read_lesson(const YamlNode& root, const std::string& path,
                                          const Installation& installation,
                                          const Registry& registry, Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.list().size();
  Mistakes mistakes(diagnostics);
  auto lesson = std::make_shared<Lesson>();
  const std::size_t slash = path.find_last_of('/') + 1;
  lesson->id = path.substr(slash, path.rfind('.') - slash);
  LessonReader(path, installation, registry, mistakes).read(root, *lesson);
  return diagnostics.list().size() == before ? lesson : nullptr;
}

}  // namespace

std::vector<const Sayings*> words_of(const Step& step) {
  std::vector<const Sayings*> all = {&step.head,           &step.text,           &step.after,
                                     &step.question.right, &step.question.wrong, &step.task.right};
  for (const Sayings& hint : step.hints) all.push_back(&hint);
  for (const Choice& choice : step.question.choices) {
    all.push_back(&choice.text);
    all.push_back(&choice.says);
  }
  for (const Item& item : step.question.items) all.push_back(&item.text);
  return all;
}

std::size_t Lesson::step_of(const std::string& name) const {
  return static_cast<std::size_t>(
      std::find_if(steps.begin(), steps.end(), [&](const Step& s) { return s.name == name; }) -
      steps.begin());
}

std::size_t Lesson::next_of(std::size_t step, const std::string& go) const {
  if (!go.empty()) return step_of(go);
  return steps[step].go.empty() ? step + 1 : step_of(steps[step].go);
}

bool is_lesson(const YamlNode& root) { return root.find("lesson") != nullptr; }

void check_lesson(const YamlNode& root, const std::string& path, const Registry& registry,
                  Diagnostics& diagnostics) {
  const auto scene = scene_named_in(root, path, "lesson", registry, diagnostics);
  if (scene != nullptr) read_lesson(root, path, *scene, registry, diagnostics);
}

Opened open_lesson(const std::string& path, const Registry& registry, Diagnostics& diagnostics) {
  const auto root = read_yaml(path, diagnostics);
  if (!root) return {};
  const auto scene = scene_named_in(*root, path, "lesson", registry, diagnostics);
  if (scene == nullptr) return {};
  auto lesson = read_lesson(*root, path, *scene, registry, diagnostics);
  if (lesson == nullptr) return {};
  return {scene, lesson};
}

}  // namespace sixty::lesson
