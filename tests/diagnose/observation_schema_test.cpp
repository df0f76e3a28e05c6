// What an editor is told of files of observations.
#include "sim/diagnose/observation_schema.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "models/part_list.hpp"
#include "tests/scene/schema_checker.hpp"

namespace sixty::diagnose {
namespace {

nlohmann::json tree_of(const std::string& text) {
  Diagnostics diagnostics;
  const auto root = parse_yaml(text, "seen.yaml", diagnostics);
  EXPECT_TRUE(root) << diagnostics.to_text();
  return root ? to_json(*root) : nlohmann::json();
}

class ObservationSchema : public ::testing::Test {
 protected:
  std::string complaints(const std::string& text) const {
    return checker_.complaints(tree_of(text));
  }

 private:
  const Registry registry_ = models::registry();
  const SchemaChecker checker_{scene_schema(registry_, {observation_schema(registry_)})};
};

TEST_F(ObservationSchema, TakesTheFilesOfTheTree) {
  int files = 0;
  const SchemaChecker checker(
      scene_schema(models::registry(), {observation_schema(models::registry())}));
  for (const auto& entry :
       std::filesystem::directory_iterator(SIXTY_SOURCE_DIR "/scenes/observations")) {
    Diagnostics diagnostics;
    const auto root = read_yaml(entry.path().string(), diagnostics);
    ASSERT_TRUE(root) << diagnostics.to_text();
    EXPECT_EQ(checker.complaints(to_json(*root)), "") << entry.path();
    ++files;
  }
  EXPECT_GT(files, 0);
}

TEST_F(ObservationSchema, TakesWhatIsKnownBeforehand) {
  EXPECT_EQ(complaints("observations: bench-minimal\n"
                       "seen: [{at: rewind, sign: misses, about: 3, when: Mon am}]\n"
                       "known: {built: 1931, serviced: 18 months ago, weather: [damp],\n"
                       "        done: [{what: new cells, ago: 2 weeks, by: the caretaker}]}\n"),
            "");
}

TEST_F(ObservationSchema, RefusesWhatNobodyCanNotice) {
  const std::string head = "observations: bench-minimal\n";
  for (const char* seen :
       {"seen: [{at: rewind, sign: sings}]", "seen: [{at: rewind}]", "seen: []",
        "seen: [{at: rewind, sign: misses, answer: perhaps}]",
        "seen: [{at: rewind, sign: misses, colour: red}]", "known: {built: 1931}",
        "seen: [{at: rewind, sign: misses}]\nknown: {colour: red}"})
    EXPECT_NE(complaints(head + seen), "") << seen;
}

TEST_F(ObservationSchema, LeavesScenesAsTheyAre) {
  Diagnostics diagnostics;
  const auto scene = read_yaml(SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml", diagnostics);
  ASSERT_TRUE(scene);
  const SchemaChecker checker(
      scene_schema(models::registry(), {observation_schema(models::registry())}));
  EXPECT_EQ(checker.complaints(to_json(*scene)), "");
}

}  // namespace
}  // namespace sixty::diagnose
