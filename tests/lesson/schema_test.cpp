// What an editor is told of lessons' files.
#include <gtest/gtest.h>

#include "models/part_list.hpp"
#include "sim/lesson/lesson_schema.hpp"
#include "sim/lesson/shelf.hpp"
#include "tests/scene/schema_checker.hpp"

namespace sixty::lesson {
namespace {

class LessonSchema : public testing::Test {
 protected:
  std::string complaints(const std::optional<YamlNode>& root) const {
    EXPECT_TRUE(root.has_value());
    return root ? checker_.complaints(to_json(*root)) : "nothing was read";
  }
  std::string complaints_of(const std::string& text) const {
    Diagnostics unread;
    return complaints(parse_yaml(text, "lesson.yaml", unread));
  }

 private:
  const SchemaChecker checker_{scene_schema(models::registry(), {lesson_schema()})};
};

TEST_F(LessonSchema, TakesTheCourse) {
  const auto all = lessons_in(SIXTY_SOURCE_DIR "/scenes/lessons");
  EXPECT_EQ(all.size(), 12U);
  for (const Listed& one : all) {
    Diagnostics unread;
    EXPECT_EQ(complaints(read_yaml(one.path, unread)), "") << one.path;
  }
}

TEST_F(LessonSchema, RefusesWhatALessonCannotHold) {
  const std::string head = "lesson: {en: A}\ntopic: {en: B}\nscene: bench-minimal\n";
  const std::string step = "steps: [{show: {en: Look.}, at: Mon 08:00}]\n";
  EXPECT_EQ(complaints_of(head + step), "");
  for (const std::string& text :
       {head, head + "steps: []\n", head + "colour: red\n" + step,
        head + "steps: [{show: {de: Nur.}}]\n", head + "steps: [{show: {en: A.}, colour: red}]\n",
        head + "steps: [{task: {en: A.}, model: {do: []}}]\n",
        head + "facts: {a: {reading: a.b, take: all}}\n" + step})
    EXPECT_NE(complaints_of(text), "") << text;
}

}  // namespace
}  // namespace sixty::lesson
