#include <gtest/gtest.h>

#include <cmath>
#include <cstdint>

#include "sim/base/hash.hpp"
#include "sim/base/rng.hpp"
#include "tests/scene/fake_parts.hpp"
#include "tests/scene/scene_files.hpp"

namespace sixty {
namespace {

using fake::load_text;

std::shared_ptr<const Installation> everything(const SceneChanges& changes = {}) {
  Diagnostics diagnostics;
  const Registry& registry = fake::registry();
  auto scene = load_scene(fake::beside("good/everything.yaml"), registry, changes, diagnostics);
  EXPECT_TRUE(scene) << diagnostics.to_text();
  return scene;
}

std::shared_ptr<const Installation> sound(const std::string& text, const Registry& registry,
                                          const SceneChanges& changes = {}) {
  fake::Loaded loaded = load_text(text, registry, changes);
  EXPECT_TRUE(loaded.scene) << loaded.diagnostics.to_text();
  return loaded.scene;
}

const Value& value(const Installation& scene, const std::string& part, const std::string& param) {
  return scene.find(part)->values.at(param);
}

TEST(LoaderTest, HeadingAndStartAreKept) {
  const auto scene = everything();
  EXPECT_EQ(scene->name, "everything");
  EXPECT_EQ(scene->title, "Everything that a scene may hold");
  EXPECT_EQ(format_iso(scene->clock, 0, 0), "2026-01-06T08:00:00");
  EXPECT_EQ(scene->week_offset, kDay + 8 * kHour);  // a Tuesday
  EXPECT_EQ(scene->seed, 7U);
}

TEST(LoaderTest, TheLeastSceneIsOnePart) {
  Diagnostics diagnostics;
  const Registry& registry = fake::registry();
  const auto scene = load_scene(fake::beside("good/least.yaml"), registry, {}, diagnostics);
  ASSERT_TRUE(scene) << diagnostics.to_text();
  EXPECT_EQ(scene->parts.size(), 1U);
  EXPECT_EQ(scene->network->node_count, 0);
  EXPECT_EQ(scene->seed, 1U);
}

TEST(LoaderTest, PartsStandInTheOrderOfTheFile) {
  const auto scene = everything();
  std::vector<std::string> names;
  for (const PartInstance& part : scene->parts) names.push_back(part.name);
  EXPECT_EQ(names, (std::vector<std::string>{"battery", "lamp_1", "lamp_2", "lamp_3", "relief",
                                             "wheel", "barrel", "finger", "other"}));
  EXPECT_EQ(scene->find("wheel")->kind->name, "wheel");
  EXPECT_EQ(scene->find("wheel")->path_hash, hash_text("wheel"));
  EXPECT_EQ(scene->find("nobody"), nullptr);
}

TEST(LoaderTest, EveryKindOfValueArrivesInSiUnits) {
  const auto scene = everything();
  EXPECT_EQ(value(*scene, "battery", "emf").number, 12);
  EXPECT_EQ(value(*scene, "battery", "resistance").number, 0.3);
  EXPECT_EQ(value(*scene, "lamp_1", "heat_time").number, 0.05);
  EXPECT_EQ(value(*scene, "lamp_1", "flashes").number, 3);
  EXPECT_EQ(value(*scene, "lamp_1", "bright").number, 1);
  EXPECT_EQ(value(*scene, "lamp_1", "colour").number, 2);
  EXPECT_EQ(value(*scene, "lamp_1", "colour").text, "green");
  EXPECT_EQ(value(*scene, "lamp_1", "label").text, "12");
  const std::vector<Value>& tags = value(*scene, "lamp_1", "tags").items;
  ASSERT_EQ(tags.size(), 3U);
  EXPECT_EQ(tags[0].text + "," + tags[1].text + "," + tags[2].text, "hall,2,upper floor");
  const auto& marks = value(*scene, "lamp_1", "marks").records;
  ASSERT_EQ(marks.size(), 2U);
  EXPECT_EQ(marks[0][0].name, "at");
  EXPECT_EQ(marks[0][0].value.number, 5);
  EXPECT_EQ(marks[0][1].value.text, "first");
  EXPECT_EQ(marks[1][0].value.number, 1.5);
  EXPECT_EQ(marks[1][1].name, "note");
  EXPECT_EQ(marks[1][1].value.text, "");
}

TEST(LoaderTest, WhatNobodySetsHasItsDefault) {
  const auto scene = everything();
  EXPECT_EQ(value(*scene, "lamp_3", "heat_time").number, 0.1);
  EXPECT_EQ(value(*scene, "lamp_3", "colour").text, "clear");
  EXPECT_EQ(value(*scene, "lamp_3", "tags").items.size(), 0U);
  EXPECT_EQ(scene->find("lamp_3")->values.size(), 10U);
}

TEST(LoaderTest, NotesOfAPartAndOfWhatATemplateMakesAreKept) {
  const fake::Loaded loaded = fake::load_text(
      "scene: Notes\nstart: 2026-01-05T00:00:00\n"
      "parts:\n  cell: {type: cell, notes: ' Stands in the cellar. '}\n"
      "lines:\n  row:\n    kind: parallel\n    from: cell.plus\n    to: cell.minus\n"
      "    run: {type: cable, notes: Under the stairs.}\n    each: {type: lamp, sheet: small}\n"
      "    places: [{name: one, length: 2 m, each: {notes: The one by the door.}}]\n",
      fake::registry());
  ASSERT_NE(loaded.scene, nullptr) << loaded.diagnostics.to_text();
  EXPECT_EQ(loaded.scene->find("cell")->notes, "Stands in the cellar.");
  EXPECT_EQ(loaded.scene->find("one_run")->notes, "Under the stairs.");
  EXPECT_EQ(loaded.scene->find("one")->notes, "The one by the door.");
}

TEST(LoaderTest, NotesThatAreNoGlancesWorthAreRefused) {
  const std::string begin =
      "scene: Notes\nstart: 2026-01-05T00:00:00\nparts:\n  cell: {type: cell, notes: ";
  const fake::Loaded most =
      fake::load_text(begin + std::string(400, 'a') + "}\n", fake::registry());
  EXPECT_TRUE(most.diagnostics.empty()) << most.diagnostics.to_text();
  const fake::Loaded more =
      fake::load_text(begin + std::string(401, 'a') + "}\n", fake::registry());
  ASSERT_EQ(more.diagnostics.list().size(), 1U);
  const Diagnostic& told = more.diagnostics.list()[0];
  EXPECT_EQ(told.line, 4);
  EXPECT_EQ(told.found, "401 letters");
  const fake::Loaded list = fake::load_text(begin + "[a, b]}\n", fake::registry());
  EXPECT_FALSE(list.diagnostics.empty());
}

TEST(LoaderTest, PartsAreMadeFromTheirValues) {
  const auto scene = everything();
  const fake::SeenLamp lamp = fake::seen_by(*scene->find("lamp_1")->part);
  EXPECT_EQ(lamp.tags, 3U);
  EXPECT_EQ(lamp.marks, 2U);
  EXPECT_EQ(lamp.first_mark_s, 5);
  EXPECT_EQ(lamp.colour, "green");
  EXPECT_EQ(fake::seen_by(*scene->find("lamp_2")->part).colour, "red");
}

TEST(WiringTest, TheNetCalledMinusIsNodeZero) {
  const auto scene = everything();
  EXPECT_EQ(scene->nets,
            (std::map<std::string, circuit::Node>{{"minus", 0}, {"plus", 1}, {"lit", 2}}));
}

TEST(WiringTest, WithoutAMinusTheFirstNetIsNodeZero) {
  const auto scene = sound(
      "scene: Two\nstart: 2026-01-05\nparts:\n  cell: {type: cell}\n  other: {type: cell}\n"
      "wires:\n  return: [cell.minus, other.minus]\n  plus: [cell.plus, other.plus]\n",
      fake::registry());
  EXPECT_EQ(scene->nets, (std::map<std::string, circuit::Node>{{"return", 0}, {"plus", 1}}));
}

TEST(WiringTest, JoinedTerminalsShareANodeAndOpenOnesHaveTheirOwn) {
  const auto scene = everything();
  EXPECT_EQ(scene->find("lamp_1")->nodes.at("a"), scene->nets.at("lit"));
  EXPECT_EQ(scene->find("finger")->nodes.at("post"), scene->nets.at("plus"));
  // Three nets, then the open ends of lamp_3 and of other in turn, then a node inside each finger.
  EXPECT_EQ(scene->find("lamp_3")->nodes.at("a"), 3);
  EXPECT_EQ(scene->find("lamp_3")->nodes.at("b"), 4);
  EXPECT_EQ(scene->find("other")->nodes.at("blade"), 5);
  EXPECT_EQ(scene->find("other")->nodes.at("post"), 6);
  EXPECT_EQ(scene->network->node_count, 9);
}

TEST(WiringTest, ElementsBelongToTheirParts) {
  const auto scene = everything();
  const circuit::Network& network = *scene->network;
  EXPECT_EQ(scene->find("battery")->sources, std::vector<int>{0});
  EXPECT_EQ(network.sources[0].owner, 0);
  EXPECT_EQ(scene->find("relief")->coils, std::vector<int>{0});
  EXPECT_EQ(network.coils[0].owner, 4);
  EXPECT_EQ(scene->find("other")->contacts, std::vector<int>{1});
  EXPECT_EQ(network.contacts[1].owner, 8);
  EXPECT_EQ(network.resistors.size(), 5U);
}

TEST(ConnectionTest, ListenersStandInTheOrderOfTheFile) {
  const auto scene = everything();
  const std::vector<std::pair<PartId, std::size_t>> expected = {{1, 0}, {2, 0}, {8, 0}};
  ASSERT_EQ(scene->find("wheel")->listeners.size(), 1U);
  EXPECT_EQ(scene->find("wheel")->listeners[0], expected);
}

TEST(ConnectionTest, TakersSeeTheStateOfTheLinkThatIsOffered) {
  const auto scene = everything();
  const PartInstance& wheel = *scene->find("wheel");
  ASSERT_EQ(wheel.offered_offset.size(), 1U);
  const Part& finger = *scene->find("finger")->part;
  EXPECT_EQ(fake::shaft_offset_of(finger), wheel.offered_offset[0]);
  EXPECT_EQ(fake::drive_offset_of(finger), scene->find("barrel")->offered_offset[0]);
  EXPECT_EQ(fake::drive_offset_of(*scene->find("other")->part), SIZE_MAX);
  EXPECT_EQ(wheel.takers[0], (std::vector<std::pair<PartId, std::size_t>>{{7, 0}, {8, 0}}));
  EXPECT_EQ(scene->find("barrel")->takers[0],
            (std::vector<std::pair<PartId, std::size_t>>{{7, 1}}));
}

TEST(ConnectionTest, PlacesInTheStateAreApartAndAligned) {
  const auto scene = everything();
  // Shaft, drive and three lamps of 16 bytes each.
  EXPECT_EQ(scene->state_bytes, sizeof(Shaft) + sizeof(Drive) + 3 * 16U);
  EXPECT_EQ(scene->find("wheel")->offered_offset[0] % 8, 0U);
  EXPECT_NE(scene->find("wheel")->offered_offset[0], scene->find("barrel")->offered_offset[0]);
}

TEST(ConnectionTest, RidersOfAShaftAreCompleteThoughItsPartIsMadeFirst) {
  const auto scene = everything();
  const PartInstance& wheel = *scene->find("wheel");
  const std::vector<Rider>& riders = fake::riders_of(*wheel.part);
  EXPECT_EQ(&riders, &wheel.riders[0]);
  ASSERT_EQ(riders.size(), 2U);
  EXPECT_EQ(riders[0].part, 7U);
  EXPECT_EQ(riders[1].part, 8U);
  EXPECT_EQ(riders[0].at_start.make_at, 5);
  EXPECT_EQ(riders[0].at_start.break_at, 7);
}

TEST(ScriptTest, ActionsComeInOrderOfTimeThenAsWritten) {
  SceneChanges changes;
  changes.action = {"5 s lamp_3.dim 50 %", "Thu 09:00:00.5 lamp_1.screw_in"};
  const auto scene = everything(changes);
  std::vector<std::string> texts;
  std::vector<SimTime> times;
  for (const Action& action : scene->script) {
    texts.push_back(action.text);
    times.push_back(action.at);
  }
  EXPECT_EQ(texts,
            (std::vector<std::string>{"wheel.turn 1.75 deg", "lamp_1.dim 30 %", "lamp_2.dim 40 %",
                                      "lamp_3.dim 50 %", "lamp_1.screw_in", "lamp_1.screw_in"}));
  EXPECT_EQ(times,
            (std::vector<SimTime>{0, 5 * kSecond, 5 * kSecond, 5 * kSecond, kDay + 15 * kMinute,
                                  2 * kDay + kHour + 500 * kMillisecond}));
}

TEST(ScriptTest, ActionsNamePartCommandAndValue) {
  const auto scene = everything();
  EXPECT_EQ(scene->script[0].part, 5U);
  EXPECT_EQ(scene->script[0].command, 0U);
  EXPECT_DOUBLE_EQ(scene->script[0].value, 1.75 * 3.14159265358979323846 / 180);
  EXPECT_EQ(scene->script[1].part, 1U);
  EXPECT_EQ(scene->script[1].command, 1U);
  EXPECT_EQ(scene->script[1].value, 30);
}

// A lamp by its sheet, between `before` and `after` in the list of parts.
std::string lamp_scene(const std::string& before, const std::string& after,
                       const std::string& head = "") {
  return "scene: Lamp\nstart: 2026-01-05\n" + head + "parts:\n" + before +
         "  hall: {type: lamp, sheet: small}\n" + after;
}

double hall_resistance(const std::string& text, const SceneChanges& changes = {}) {
  return value(*sound(text, fake::registry(), changes), "hall", "resistance").number;
}

TEST(ToleranceTest, ADrawDependsOnSeedAndNamesAlone) {
  const auto stream = [] {
    const std::uint64_t hash = hash_text("resistance");
    return static_cast<std::uint32_t>(hash ^ (hash >> 32));
  }();
  const double u = uniform_draw(1, hash_text("hall"), stream, 0);
  EXPECT_EQ(hall_resistance(lamp_scene("", "")), 80 * (1 + 0.05 * (2 * u - 1)));
}

TEST(ToleranceTest, AddingAPartShiftsNobodyElsesValues) {
  const auto alone = sound(lamp_scene("", ""), fake::registry());
  const std::string another = "  other: {type: lamp, sheet: small}\n  wheel: {type: wheel}\n";
  for (const auto& scene : {sound(lamp_scene(another, ""), fake::registry()),
                            sound(lamp_scene("", another), fake::registry())}) {
    EXPECT_EQ(value(*scene, "hall", "resistance").number,
              value(*alone, "hall", "resistance").number);
    EXPECT_EQ(value(*scene, "hall", "heat_time").number, value(*alone, "hall", "heat_time").number);
    EXPECT_NE(value(*scene, "other", "resistance").number,
              value(*alone, "hall", "resistance").number);
  }
}

TEST(ToleranceTest, SettingOneValueShiftsNoOther) {
  SceneChanges changes;
  changes.set = {"hall.heat_time=30 ms"};
  EXPECT_EQ(hall_resistance(lamp_scene("", ""), changes), hall_resistance(lamp_scene("", "")));
}

TEST(ToleranceTest, DrawsStayWithinTheToleranceAndFillIt) {
  double least = 1e9;
  double most = 0;
  for (std::uint64_t seed = 0; seed < 200; ++seed) {
    SceneChanges changes;
    changes.seed = seed;
    const double r = hall_resistance(lamp_scene("", ""), changes);
    least = std::fmin(least, r);
    most = std::fmax(most, r);
  }
  EXPECT_GE(least, 76);
  EXPECT_LE(most, 84);
  EXPECT_LT(least, 76.4);
  EXPECT_GT(most, 83.6);
}

TEST(ToleranceTest, SpreadScalesTheDrawAndZeroGivesNominalParts) {
  const double full = hall_resistance(lamp_scene("", "")) - 80;
  const double half = hall_resistance(lamp_scene("", "", "spread: 50 %\n")) - 80;
  EXPECT_NEAR(half, full / 2, 1e-12);
  EXPECT_EQ(hall_resistance(lamp_scene("", "", "spread: 0\n")), 80);
}

TEST(ToleranceTest, AnAbsoluteToleranceIsInTheValuesUnit) {
  for (const std::uint64_t seed : {1, 2, 3, 4, 5}) {
    SceneChanges changes;
    changes.seed = seed;
    const auto scene = sound(lamp_scene("", ""), fake::registry(), changes);
    const double heat_time_s = value(*scene, "hall", "heat_time").number;
    EXPECT_NE(heat_time_s, 0.2);
    EXPECT_NEAR(heat_time_s, 0.2, 0.02);
  }
}

TEST(ToleranceTest, DrawsAreHeldWithinWhatThePartTakes) {
  const Registry registry = fake::registry_with_sheet(
      "sheet: small\npart: lamp\ntitle: At the limit\nvalues:\n  resistance: {value: 1000 ohm, "
      "range: [900 ohm, 1000 ohm], tolerance: 50 %, source: assumed}\n");
  bool at_limit = false;
  for (std::uint64_t seed = 1; seed < 20; ++seed) {
    SceneChanges changes;
    changes.seed = seed;
    const auto scene = sound(lamp_scene("", ""), registry, changes);
    EXPECT_LE(value(*scene, "hall", "resistance").number, 1000);
    at_limit = at_limit || value(*scene, "hall", "resistance").number == 1000;
  }
  EXPECT_TRUE(at_limit);
}

TEST(ToleranceTest, WhatIsSetIsNotDrawn) {
  const auto by_scene = sound(
      "scene: Lamp\nstart: 2026-01-05\nparts:\n"
      "  hall: {type: lamp, sheet: small, set: {resistance: 90 ohm}}\n",
      fake::registry());
  EXPECT_EQ(value(*by_scene, "hall", "resistance").number, 90);
  SceneChanges changes;
  changes.set = {"hall.resistance=95 ohm", "hall.label=A and B"};
  const auto by_command = sound(lamp_scene("", ""), fake::registry(), changes);
  EXPECT_EQ(value(*by_command, "hall", "resistance").number, 95);
  EXPECT_EQ(value(*by_command, "hall", "label").text, "A and B");
}

TEST(ToleranceTest, TheSeedOfTheCommandLineGoesBeforeThatOfTheScene) {
  SceneChanges changes;
  changes.seed = 9;
  EXPECT_EQ(everything(changes)->seed, 9U);
  EXPECT_EQ(hall_resistance(lamp_scene("", "", "seed: 9\n")),
            hall_resistance(lamp_scene("", ""), changes));
}

TEST(CheckTest, ADataSheetIsCheckedByItself) {
  const Registry& registry = fake::registry();
  EXPECT_EQ(fake::check_text_as("small.yaml", fake::lamp_sheet(), registry), "");
  EXPECT_EQ(fake::check_text_as("large.yaml", fake::lamp_sheet(), registry),
            "large.yaml:1:8: sheet: a data sheet bears its file's name\n"
            "  found:    small\n"
            "  expected: large\n"
            "  mend:     rename the file or the sheet\n");
}

TEST(CheckTest, SoundScenesHaveNoMistakes) {
  const Registry& registry = fake::registry();
  for (const std::string& file : fake::files_in("good", ".yaml")) {
    Diagnostics diagnostics;
    check_file(file, registry, diagnostics);
    EXPECT_EQ(diagnostics.to_text(), "");
  }
}

// The examples of the format's description are to be right themselves.
TEST(CheckTest, ExamplesOfTheReadmeAreSound) {
  const std::string readme = fake::text_of(std::string(SIXTY_SOURCE_DIR) + "/sim/scene/README.md");
  const std::string opening = "```yaml\n";
  std::size_t examples = 0;
  for (std::size_t at = readme.find(opening); at != std::string::npos; ++examples) {
    at += opening.size();
    const std::string text = readme.substr(at, readme.find("```", at) - at);
    EXPECT_EQ(fake::check_text_as("small.yaml", text, fake::registry()), "");
    at = readme.find(opening, at);
  }
  EXPECT_EQ(examples, 3U);
}

}  // namespace
}  // namespace sixty
