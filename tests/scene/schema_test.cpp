#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <filesystem>

#include "models/part_list.hpp"
#include "sim/scene/yaml_document.hpp"
#include "tests/scene/fake_parts.hpp"
#include "tests/scene/mutation.hpp"
#include "tests/scene/scene_files.hpp"
#include "tests/scene/schema_checker.hpp"

namespace sixty {
namespace {

using nlohmann::json;
namespace fs = std::filesystem;

json tree_of(const std::string& path) {
  Diagnostics diagnostics;
  const std::optional<YamlNode> root = read_yaml(path, diagnostics);
  EXPECT_TRUE(root) << diagnostics.to_text();
  return root ? to_json(*root) : json();
}

// Scenes, sheets and faults below a folder of the tree, but not those of these tests, whose parts
// exist in these tests alone; nor tours, and what diagnosis goes by, which other tests check.
std::vector<std::string> yaml_below(const std::string& folder) {
  std::vector<std::string> paths;
  const fs::path root = fs::path(SIXTY_SOURCE_DIR) / folder;
  for (const auto& entry : fs::recursive_directory_iterator(root)) {
    const std::string path = entry.path().string();
    const bool other = path.find("/tests/scene/") != std::string::npos ||
                       path.find("/scenes/exhibits/") != std::string::npos ||
                       path.find("/scenes/tours/") != std::string::npos ||
                       path.find("/scenes/lessons/") != std::string::npos ||
                       path.find("/scenes/observations/") != std::string::npos ||
                       path.find("/signs.yaml") != std::string::npos ||
                       path.find("/models/checks.yaml") != std::string::npos ||
                       path.find("/models/circumstances.yaml") != std::string::npos;
    if (entry.path().extension() == ".yaml" && !other) paths.push_back(path);
  }
  return paths;
}

TEST(SchemaTest, ItIsTheSameTextEveryTime) {
  EXPECT_EQ(scene_schema(fake::registry()), scene_schema(fake::registry()));
  const json schema = json::parse(scene_schema(fake::registry()));
  EXPECT_EQ(schema["$schema"], "http://json-schema.org/draft-07/schema#");
}

TEST(SchemaTest, SoundScenesAndSheetsAreAccepted) {
  const SchemaChecker checker(scene_schema(fake::registry()));
  for (const std::string& file : fake::files_in("good", ".yaml"))
    EXPECT_EQ(checker.complaints(tree_of(file)), "") << file;
  Diagnostics diagnostics;
  const auto sheet = parse_yaml(fake::lamp_sheet(), "small.yaml", diagnostics);
  ASSERT_TRUE(sheet);
  EXPECT_EQ(checker.complaints(to_json(*sheet)), "");
}

// Every scene and data sheet of the tree: what the loader takes, the schema takes too.
TEST(SchemaTest, WhatTheLoaderAcceptsIsAccepted) {
  const Registry registry = models::registry();
  const SchemaChecker checker(scene_schema(registry));
  for (const char* folder : {"scenes", "tests", "models"}) {
    for (const std::string& file : yaml_below(folder)) {
      Diagnostics diagnostics;
      check_file(file, registry, diagnostics);
      if (!diagnostics.empty()) continue;
      EXPECT_EQ(checker.complaints(tree_of(file)), "") << file;
    }
  }
}

TEST(SchemaTest, ScenesAndSheetsOfTheTreeHaveNoMistakes) {
  const Registry registry = models::registry();
  Diagnostics diagnostics;
  for (const char* folder : {"scenes", "models"})
    for (const std::string& file : yaml_below(folder)) check_file(file, registry, diagnostics);
  EXPECT_EQ(diagnostics.to_text(), "");
}

RC_GTEST_PROP(SchemaTest, WhatTheLoaderAcceptsOfAChangedSceneIsAccepted, ()) {
  static const SchemaChecker checker(scene_schema(fake::registry()));
  const std::string file = *rc::gen::element("good/everything.yaml", "good/lines.yaml");
  const std::string text = fake::mutated(fake::text_of(fake::beside(file)));
  if (!fake::load_text(text, fake::registry()).scene) return;
  Diagnostics diagnostics;
  const auto root = parse_yaml(text, "scene.yaml", diagnostics);
  RC_ASSERT(root.has_value());
  RC_ASSERT(checker.complaints(to_json(*root)) == "");
}

// A sound scene in which one thing is changed.
struct Change {
  const char* pointer;
  json value;
};

json changed(const Change& change, const std::string& file = "good/everything.yaml") {
  json tree = tree_of(fake::beside(file));
  tree[json::json_pointer(change.pointer)] = change.value;
  return tree;
}

TEST(SchemaTest, UnknownKeysAreRefusedEverywhere) {
  const SchemaChecker checker(scene_schema(fake::registry()));
  for (const char* pointer :
       {"/sede", "/parts/lamp_1/sets", "/parts/lamp_1/set/resistence", "/parts/lamp_1/connect/go",
        "/parts/lamp_1/set/marks/0/when", "/parts/finger/connect/mounted_in"})
    EXPECT_NE(checker.complaints(changed({pointer, "x.y"})), "") << pointer;
  json sheet = json::parse(R"({"sheet": "small", "part": "lamp", "title": "Small", "values":
      {"resistance": {"value": "80 ohm", "range": ["40 ohm", "120 ohm"], "source": "assumed"}}})");
  EXPECT_EQ(checker.complaints(sheet), "");
  for (const char* pointer : {"/sheets", "/values/resistence", "/values/resistance/from"}) {
    json copy = sheet;
    copy[json::json_pointer(pointer)] = "x";
    EXPECT_NE(checker.complaints(copy), "") << pointer;
  }
}

TEST(SchemaTest, ValuesThatCannotBeReadAreRefused) {
  const SchemaChecker checker(scene_schema(fake::registry()));
  for (const Change& change : {Change{"/start", "2026"},
                               Change{"/seed", -1},
                               Change{"/seed", "a"},
                               Change{"/spread", "much"},
                               Change{"/parts", json::object()},
                               Change{"/parts/lamp_1", json::object()},
                               Change{"/parts/lamp_1/type", "lmap"},
                               Change{"/parts/lamp_1/sheet", "large"},
                               Change{"/parts/wheel/sheet", "small"},
                               Change{"/parts/lamp_1/set/resistance", 80},
                               Change{"/parts/lamp_1/set/resistance", "80"},
                               Change{"/parts/lamp_1/set/resistance", "08 ohm"},
                               Change{"/parts/lamp_1/set/resistance", "8,5 ohm"},
                               Change{"/parts/lamp_1/set/flashes", 0},
                               Change{"/parts/lamp_1/set/flashes", 11},
                               Change{"/parts/lamp_1/set/flashes", 2.5},
                               Change{"/parts/lamp_1/set/bright", "maybe"},
                               Change{"/parts/lamp_1/set/colour", "gren"},
                               Change{"/parts/lamp_1/set/tags", "hall"},
                               Change{"/parts/lamp_1/set/marks/0", json::object()},
                               Change{"/parts/lamp_1/connect/light", "wheel"},
                               Change{"/parts/finger/connect", json::object()},
                               Change{"/parts/two.three", "x"},
                               Change{"/wires/plus", "battery.plus"},
                               Change{"/wires/plus", json::array({"battery.plus"})},
                               Change{"/wires/plus", json::array({"battery.plus", "battery.plus"})},
                               Change{"/script/0", "lamp_1.screw_in"}})
    EXPECT_NE(checker.complaints(changed(change)), "") << change.pointer << " " << change.value;
}

TEST(SchemaTest, WhatNoLineCanBeMadeOfIsRefused) {
  const SchemaChecker checker(scene_schema(fake::registry()));
  for (const Change& change : {Change{"/rooms/hall/floor", 0.5},
                               Change{"/rooms/hall/x", 3},
                               Change{"/rooms/hall/hight", "3 m"},
                               Change{"/rooms/2nd", json::object()},
                               Change{"/plan/storey", "high"},
                               Change{"/plan/slack", "2 %"},
                               Change{"/parts/battery/room", "east wing"},
                               Change{"/lines/upper/kind", "paralel"},
                               Change{"/lines/upper/from", "battery"},
                               Change{"/lines/upper/run", "cable"},
                               Change{"/lines/upper/run/type", "cabel"},
                               Change{"/lines/upper/run/set/strand", 3},
                               Change{"/lines/upper/run/join/sheild", "battery.minus"},
                               Change{"/lines/upper/run/join/shield", "battery"},
                               Change{"/lines/upper/each/room", "hall"},
                               Change{"/lines/upper/each/connect/light", "wheel"},
                               Change{"/lines/upper/places", json::array()},
                               Change{"/lines/upper/places/0", "hall"},
                               Change{"/lines/upper/places/0/name", "2nd"},
                               Change{"/lines/upper/places/0/name", 2},
                               Change{"/lines/upper/places/0/lenght", "3 m"},
                               Change{"/lines/upper/places/0/length", 3},
                               Change{"/lines/upper/places/0/each", "nothing"},
                               Change{"/lines/upper/places/0/each", json{{"colour", "red"}}},
                               Change{"/lines/upper/places/1/branch/0/length", "long"},
                               Change{"/lines/upper/places/2/count", 1001},
                               Change{"/lines/upper/places/2/first", -1},
                               Change{"/lines/home/back", 6},
                               Change{"/lines/home/ballast", json::object()},
                               Change{"/lines/2nd", json::object()}})
    EXPECT_NE(checker.complaints(changed(change, "good/lines.yaml")), "")
        << change.pointer << " " << change.value;
  for (const char* key : {"kind", "from", "to", "run", "each", "places"}) {
    json tree = tree_of(fake::beside("good/lines.yaml"));
    tree["lines"]["upper"].erase(key);
    EXPECT_NE(checker.complaints(tree), "") << key;
  }
}

TEST(SchemaTest, RequiredKeysAreRequired) {
  const SchemaChecker checker(scene_schema(fake::registry()));
  for (const char* key : {"scene", "start", "parts"}) {
    json tree = tree_of(fake::beside("good/everything.yaml"));
    tree.erase(key);
    EXPECT_NE(checker.complaints(tree), "") << key;
  }
  json tree = tree_of(fake::beside("good/everything.yaml"));
  tree["parts"]["finger"].erase("connect");
  EXPECT_NE(checker.complaints(tree), "");
}

TEST(SchemaTest, MisspeltFilesAreRefused) {
  const SchemaChecker checker(scene_schema(fake::registry()));
  for (const char* name : {"names", "values", "missing", "no_parts", "list", "second_sheet",
                           "unknown_part_sheet", "other_file", "lines"})
    EXPECT_NE(checker.complaints(tree_of(fake::beside("bad/" + std::string(name) + ".yaml"))), "")
        << name;
}

}  // namespace
}  // namespace sixty
