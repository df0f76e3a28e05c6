// What an editor is told of files of observations.
#include "sim/diagnose/observation_schema.hpp"

#include <gtest/gtest.h>

#include <filesystem>

#include "models/part_list.hpp"
#include "tests/scene/schema_checker.hpp"

namespace sixty::diagnose {
namespace {

class ObservationSchema : public ::testing::Test {
 protected:
  std::string complaints(const std::string& text) const {
    Diagnostics diagnostics;
    return complaints(parse_yaml(text, "seen.yaml", diagnostics), diagnostics);
  }
  std::string complaints_of_file(const std::string& path) const {
    Diagnostics diagnostics;
    return complaints(read_yaml(path, diagnostics), diagnostics);
  }

 private:
  std::string complaints(const std::optional<YamlNode>& root, const Diagnostics& told) const {
    EXPECT_TRUE(root) << told.to_text();
    return root ? checker_.complaints(to_json(*root)) : "nothing was read";
  }

  const Registry registry_ = models::registry();
  const SchemaChecker checker_{scene_schema(registry_, {observation_schema(registry_)})};
};

TEST_F(ObservationSchema, TakesTheFilesOfTheTree) {
  int files = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(SIXTY_SOURCE_DIR "/scenes/observations")) {
    EXPECT_EQ(complaints_of_file(entry.path().string()), "") << entry.path();
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
  EXPECT_EQ(complaints_of_file(SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml"), "");
}

}  // namespace
}  // namespace sixty::diagnose
