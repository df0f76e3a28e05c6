// A line stands for parts and wires: those that a person would have written out.
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <set>

#include "sim/base/hash.hpp"
#include "tests/scene/fake_parts.hpp"
#include "tests/scene/scene_files.hpp"

namespace sixty {
namespace {

using fake::load_text;

std::shared_ptr<const Installation> lines(const SceneChanges& changes = {}) {
  Diagnostics diagnostics;
  auto scene = load_scene(fake::beside("good/lines.yaml"), fake::registry(), changes, diagnostics);
  EXPECT_TRUE(scene) << diagnostics.to_text();
  return scene;
}

const Value& value(const Installation& scene, const std::string& part, const std::string& param) {
  return scene.find(part)->values.at(param);
}

circuit::Node node(const Installation& scene, const std::string& terminal) {
  const std::size_t dot = terminal.find('.');
  return scene.find(terminal.substr(0, dot))->nodes.at(terminal.substr(dot + 1));
}

// Whether these terminals are joined, and no other terminal with them.
void expect_net(const Installation& scene, const std::set<std::string>& terminals) {
  const circuit::Node here = node(scene, *terminals.begin());
  std::set<std::string> found;
  for (const PartInstance& part : scene.parts)
    for (const auto& [name, at] : part.nodes)
      if (at == here) found.insert(part.name + "." + name);
  EXPECT_EQ(found, terminals);
}

TEST(LinesTest, EachPlaceIsARunAndAPartBehindThoseOfTheScene) {
  const auto scene = lines();
  std::vector<std::string> names;
  for (const PartInstance& part : scene->parts) names.push_back(part.name);
  EXPECT_EQ(names, (std::vector<std::string>{"battery",
                                             "wheel",
                                             "probe",
                                             "hall_lamp_run",
                                             "hall_lamp",
                                             "box_run",
                                             "attic_lamp_run",
                                             "attic_lamp",
                                             "last_run",
                                             "last",
                                             "c4_run",
                                             "c4",
                                             "c5_run",
                                             "c5",
                                             "c6_run",
                                             "c6",
                                             "loop_ballast",
                                             "one_run",
                                             "one",
                                             "gap_run",
                                             "two_run",
                                             "two",
                                             "loop_back",
                                             "three_run",
                                             "three",
                                             "home_back"}));
}

TEST(LinesTest, AParallelLineRunsFromPlaceToPlaceAndPartsHangAcrossIt) {
  const auto scene = lines();
  expect_net(*scene, {"battery.plus", "hall_lamp_run.near", "loop_ballast.a", "three_run.near"});
  expect_net(*scene, {"hall_lamp_run.far", "hall_lamp.a", "box_run.near"});
  expect_net(*scene, {"c4_run.far", "c4.a", "c5_run.near"});
  expect_net(*scene, {"c6_run.far", "c6.a"});
  for (const char* lamp : {"hall_lamp", "attic_lamp", "last", "c4", "c5", "c6"})
    EXPECT_EQ(node(*scene, std::string(lamp) + ".b"), node(*scene, "battery.minus")) << lamp;
}

TEST(LinesTest, ABranchBeginsAtItsPlaceAndTheLineGoesOnFromThere) {
  const auto scene = lines();
  expect_net(*scene, {"box_run.far", "attic_lamp_run.near", "c4_run.near"});
  expect_net(*scene, {"attic_lamp_run.far", "attic_lamp.a", "last_run.near"});
  expect_net(*scene, {"last_run.far", "last.a"});
}

TEST(LinesTest, ASeriesLoopGoesThroughAllItsPartsAndHome) {
  const auto scene = lines();
  expect_net(*scene, {"loop_ballast.b", "one_run.near"});
  expect_net(*scene, {"one_run.far", "one.a"});
  expect_net(*scene, {"one.b", "gap_run.near"});
  expect_net(*scene, {"gap_run.far", "two_run.near"});
  expect_net(*scene, {"two.b", "loop_back.near"});
  EXPECT_EQ(node(*scene, "loop_back.far"), node(*scene, "battery.minus"));
}

TEST(LinesTest, WhatHangsOnALineCanBeWiredToOtherThings) {
  expect_net(*lines(), {"c5_run.far", "c5.a", "probe.a", "c6_run.near"});
}

TEST(LinesTest, FurtherTerminalsOfATemplateAreJoinedWhereItSays) {
  const auto scene = lines();
  EXPECT_EQ(node(*scene, "c4_run.shield"), node(*scene, "battery.minus"));
  expect_net(*scene, {"one_run.shield"});
}

TEST(LinesTest, APlaceChangesOrReplacesTheTemplates) {
  const auto scene = lines();
  EXPECT_EQ(value(*scene, "hall_lamp_run", "strands").number, 2);
  EXPECT_EQ(value(*scene, "attic_lamp_run", "strands").number, 7);
  EXPECT_EQ(value(*scene, "hall_lamp", "colour").text, "green");
  EXPECT_EQ(value(*scene, "attic_lamp", "colour").text, "clear");
  EXPECT_EQ(value(*scene, "c6", "flashes").number, 3);
  EXPECT_EQ(value(*scene, "c6", "colour").text, "green");
  EXPECT_EQ(scene->find("last")->kind->name, "winding");
  EXPECT_EQ(value(*scene, "last", "resistance").number, 90);
}

TEST(LinesTest, ConnectionsOfATemplateAreMadeForEach) {
  const auto scene = lines();
  std::vector<std::string> listeners;
  for (const auto& [part, input] : scene->find("wheel")->listeners[0])
    listeners.push_back(scene->parts[part].name);
  EXPECT_EQ(listeners, (std::vector<std::string>{"hall_lamp", "attic_lamp", "c4", "c5", "c6"}));
}

TEST(LinesTest, EachPartDrawsItsTolerancesByItsOwnName) {
  const auto scene = lines();
  EXPECT_NE(value(*scene, "c4", "resistance").number, value(*scene, "c5", "resistance").number);
  const fake::Loaded alone =
      load_text("scene: Alone\nstart: 2026-01-06\nparts:\n  c5: {type: lamp, sheet: small}\n",
                fake::registry());
  ASSERT_TRUE(alone.scene);
  EXPECT_EQ(value(*scene, "c5", "resistance").number,
            value(*alone.scene, "c5", "resistance").number);
}

TEST(LinesTest, TheCommandLineSetsWhatALineMade) {
  SceneChanges changes;
  changes.set = {"c5.flashes=7", "hall_lamp_run.length=3 m"};
  const auto scene = lines(changes);
  EXPECT_EQ(value(*scene, "c5", "flashes").number, 7);
  EXPECT_EQ(value(*scene, "hall_lamp_run", "length").number, 3);
}

TEST(PlanTest, RoomsAndWhatStandsInThemAreKept) {
  const auto scene = lines();
  ASSERT_EQ(scene->rooms.size(), 3U);
  EXPECT_EQ(scene->rooms[0].name, "office");
  EXPECT_EQ(scene->rooms[0].width_m, 6);
  EXPECT_EQ(scene->rooms[2].floor, 2);
  EXPECT_EQ(scene->rooms[2].height_m, 2);
  EXPECT_EQ(scene->find("battery")->room, "office");
  EXPECT_EQ(scene->find("hall_lamp")->room, "hall");
  EXPECT_EQ(scene->find("hall_lamp_run")->room, "hall");
  EXPECT_EQ(scene->find("c4")->room, "");
}

// From the middle of one room to that of the other, along x and along y, 3 m a storey, 10 % more.
TEST(PlanTest, ARunWithoutLengthGoesByThePlan) {
  const auto scene = lines();
  EXPECT_DOUBLE_EQ(value(*scene, "hall_lamp_run", "length").number, (17 + 8) * 1.1);
  EXPECT_DOUBLE_EQ(value(*scene, "box_run", "length").number, (2 * 3 + 1) * 1.1);
  EXPECT_DOUBLE_EQ(value(*scene, "one_run", "length").number, (2 * 3 + 1) * 1.1);
  EXPECT_DOUBLE_EQ(value(*scene, "loop_back", "length").number, (17 + 8) * 1.1);
  EXPECT_DOUBLE_EQ(value(*scene, "home_back", "length").number, 6);
}

TEST(PlanTest, StoreyAndAllowanceHaveDefaults) {
  const fake::Loaded loaded = load_text(
      "scene: Two rooms\nstart: 2026-01-06\n"
      "rooms: {low: {floor: 0, x: 0 m, y: 0 m}, high: {floor: 2, x: 0 m, y: 0 m}}\n"
      "parts:\n  battery: {type: cell, room: low}\n"
      "lines:\n  up:\n    kind: parallel\n    from: battery.plus\n    to: battery.minus\n"
      "    run: {type: cable}\n    each: {type: lamp, sheet: small}\n"
      "    places: [{name: lamp, room: high}]\n",
      fake::registry());
  ASSERT_TRUE(loaded.scene) << loaded.diagnostics.to_text();
  EXPECT_DOUBLE_EQ(value(*loaded.scene, "lamp_run", "length").number,
                   8.05);  // 3.5 m a storey, 15 %
}

std::string many(int count, const std::string& each) {
  return "scene: Many\nstart: 2026-01-06\nparts:\n  battery: {type: cell}\n"
         "lines:\n  long:\n    kind: parallel\n    from: battery.plus\n    to: battery.minus\n"
         "    run: {type: cable}\n    each: " +
         each + "\n    places: [{count: " + std::to_string(count) +
         ", name: \"c{n}\", length: 1 m}]\n";
}

TEST(LinesTest, AThousandPlacesAreWrittenInOneLine) {
  const fake::Loaded loaded = load_text(many(1000, "{type: lamp, sheet: small}"), fake::registry());
  ASSERT_TRUE(loaded.scene) << loaded.diagnostics.to_text();
  EXPECT_EQ(loaded.scene->parts.size(), 2001U);
  EXPECT_NE(loaded.scene->find("c1000"), nullptr);
}

TEST(LinesTest, AMistakeInATemplateIsReportedOnce) {
  for (const char* each : {"{type: lamp, sheet: smal}", "{type: lamp}", "{type: finger}",
                           "{type: lamp, sheet: small, set: {bright: yes, flashes: 7}}",
                           "{type: lamp, sheet: small, connect: {light: weel.turned}}"}) {
    const fake::Loaded loaded = load_text(many(300, each), fake::registry());
    EXPECT_EQ(loaded.scene, nullptr) << each;
    EXPECT_EQ(loaded.diagnostics.list().size(), 1U) << loaded.diagnostics.to_text();
  }
}

TEST(LinesTest, MoreThanFiveThousandPartsAreRefusedOnce) {
  std::string text = many(1000, "{type: lamp, sheet: small}");
  text.insert(text.rfind("}]") + 1,
              ", {count: 1000, name: \"d{n}\", length: 1 m}"
              ", {count: 1000, name: \"e{n}\", length: 1 m}");
  const fake::Loaded loaded = load_text(text, fake::registry());
  ASSERT_EQ(loaded.diagnostics.list().size(), 1U) << loaded.diagnostics.to_text();
  EXPECT_EQ(loaded.diagnostics.list()[0].what, "lines: too many");
}

// A line of random branches as text, and the same written out part by part and net by net.
class BothForms {
 public:
  explicit BothForms(bool series) : series_(series) {}

  std::string places(const std::string& from, int depth) {
    std::string text = "[";
    std::string end = from;
    const int count = *rc::gen::inRange(1, 4);
    for (int k = 0; k < count; ++k) {
      const std::string name = "p" + std::to_string(++number_);
      const bool bare = *rc::gen::inRange(0, 4) == 0;
      end = place(name, end, bare);
      text += std::string(k == 0 ? "" : ", ") + "{name: " + name +
              ", length: " + std::to_string(number_) + " m" + (bare ? ", each: none" : "");
      if (!series_ && depth < 2 && *rc::gen::inRange(0, 3) == 0)
        text += ", branch: " + places(end, depth + 1);
      text += "}";
    }
    if (series_) {
      cable("it_back", 9);
      join(end, "it_back.near");
      join("battery.minus", "it_back.far");
    }
    return text + "]";
  }

  std::string line(const std::string& places) const {
    return head() + "lines:\n  it:\n    kind: " + (series_ ? "series\n    back: 9 m" : "parallel") +
           "\n    from: battery.plus\n    to: battery.minus\n    run: {type: cable}\n"
           "    each: {type: lamp, sheet: small}\n    places: " +
           places + "\n";
  }

  std::string written_out() const {
    std::string text = head() + parts_ + "wires:\n";
    int net = 0;
    for (const auto& [first, terminals] : nets_) {
      text += "  n" + std::to_string(++net) + ": [" + first;
      for (const std::string& terminal : terminals) text += ", " + terminal;
      text += "]\n";
    }
    return text;
  }

 private:
  static std::string head() {
    return "scene: Both\nstart: 2026-01-06\nparts:\n  battery: {type: cell}\n";
  }

  // Returns the terminal from which the line goes on.
  std::string place(const std::string& name, const std::string& from, bool bare) {
    cable(name + "_run", number_);
    join(from, name + "_run.near");
    if (bare) return name + "_run.far";
    parts_ += "  " + name + ": {type: lamp, sheet: small}\n";
    join(name + "_run.far", name + ".a");
    if (series_) return name + ".b";
    join("battery.minus", name + ".b");
    return name + "_run.far";
  }

  void cable(const std::string& name, int length_m) {
    parts_ += "  " + name + ": {type: cable, set: {length: " + std::to_string(length_m) + " m}}\n";
  }

  void join(const std::string& net, const std::string& terminal) { nets_[net].push_back(terminal); }

  bool series_;
  int number_ = 0;
  std::string parts_;
  std::map<std::string, std::vector<std::string>> nets_;  // by the terminal that was there first
};

// What is joined with what: each net by its terminals.
std::set<std::set<std::string>> joined(const Installation& scene) {
  std::map<circuit::Node, std::set<std::string>> nets;
  for (const PartInstance& part : scene.parts)
    for (const auto& [terminal, at] : part.nodes) nets[at].insert(part.name + "." + terminal);
  std::set<std::set<std::string>> all;
  for (const auto& [at, terminals] : nets) all.insert(terminals);
  return all;
}

RC_GTEST_PROP(LinesTest, ALineIsWhatAPersonWouldHaveWrittenOut, ()) {
  BothForms forms(*rc::gen::arbitrary<bool>());
  const std::string places = forms.places("battery.plus", 0);
  const fake::Loaded line = load_text(forms.line(places), fake::registry());
  const fake::Loaded out = load_text(forms.written_out(), fake::registry());
  RC_ASSERT(line.diagnostics.to_text() == "");
  RC_ASSERT(out.diagnostics.to_text() == "");
  RC_ASSERT(line.scene->parts.size() == out.scene->parts.size());
  for (std::size_t i = 0; i < line.scene->parts.size(); ++i) {
    const PartInstance& part = line.scene->parts[i];
    const PartInstance* other = out.scene->find(part.name);
    RC_ASSERT(other != nullptr);
    RC_ASSERT(part.kind == other->kind);
    for (const auto& [param, given] : part.values)
      RC_ASSERT(given.number == other->values.at(param).number);
  }
  RC_ASSERT(joined(*line.scene) == joined(*out.scene));
}

}  // namespace
}  // namespace sixty
