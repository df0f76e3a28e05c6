#pragma once

#include <string>
#include <vector>

#include "sim/lesson/lesson.hpp"
#include "sim/tour/step_reader.hpp"

namespace sixty::lesson {

/// Reads one lesson's file; what is wrong in it is reported at its place.
class LessonReader {
 public:
  /// Order: all that is given outlives it.
  LessonReader(const std::string& path, const Installation& installation, const Registry& registry,
               Mistakes& mistakes)
      : steps_(path, installation, registry, mistakes),
        reader_(steps_.tree()),
        installation_(installation),
        mistakes_(mistakes) {}

  void read(const YamlNode& root, Lesson& lesson);

 private:
  void read_head(const YamlNode& root, Lesson& lesson);
  void read_facts(const YamlNode& facts, Lesson& lesson);
  void check_span(const YamlNode& node, std::optional<SimTime> from, std::optional<SimTime> to);
  void read_stated(const YamlNode& stated, Lesson& lesson);
  Step read_step(const YamlNode& node, Lesson& lesson);
  void read_when(const YamlNode& node, Step& step);
  void read_words(const YamlNode& node, Step& step);
  void read_question(const YamlNode& node, Step& step, const Lesson& lesson);
  void read_choices(const YamlNode& choices, Step& step);
  void read_number(const YamlNode& node, Question& question, const Lesson& lesson);
  void read_items(const YamlNode& items, Question& question);
  void read_task(const YamlNode& node, Step& step);
  void read_model(const YamlNode& model, Task& task);
  std::vector<PartId> some_parts(const YamlNode& node, const std::string& label);
  void read_why(const YamlNode& node, Step& step);
  void check_steps(const YamlNode& steps, const Lesson& lesson);
  /// Whatever stands at a time needs one.
  void check_when(const YamlNode& node, const Step& step);
  void check_ends(const YamlNode& steps, const Lesson& lesson);
  void check_goes(const YamlNode& node, const std::string& go, const Lesson& lesson);
  /// Every figure in words belongs to a number of the run, or to what the lesson says of it.
  void check_figures(const YamlNode& root, const Lesson& lesson);

  Sayings words(const YamlNode& node, const std::string& label);
  /// The words of a key; none if it is not there.
  Sayings words_of(const YamlNode& map, const char* key);
  std::string text_of(const YamlNode& map, const char* key);

  StepReader steps_;
  TreeReader& reader_;
  const Installation& installation_;
  Mistakes& mistakes_;
  std::vector<NamedNumber> numbers_;  ///< of the lesson's facts
};

}  // namespace sixty::lesson
