#include <gtest/gtest.h>

#include <filesystem>

#include "tests/scene/fake_parts.hpp"
#include "tests/scene/scene_files.hpp"

namespace sixty {
namespace {

using fake::load_text;

std::string without(std::string text, const std::string& prefix) {
  for (std::size_t at = text.find(prefix); at != std::string::npos; at = text.find(prefix))
    text.erase(at, prefix.size());
  return text;
}

// Each file of bad/ has beside it, in a .txt file, every mistake that is to be reported.
TEST(MistakesTest, EveryMistakeOfABadFileIsReportedAsWritten) {
  const Registry& registry = fake::registry();
  const std::vector<std::string> files = fake::files_in("bad", ".yaml");
  EXPECT_GE(files.size(), 10U);
  for (const std::string& file : files) {
    Diagnostics diagnostics;
    check_file(file, registry, diagnostics);
    const std::string expected =
        fake::text_of(std::filesystem::path(file).replace_extension(".txt").string());
    EXPECT_FALSE(diagnostics.empty()) << file;
    EXPECT_EQ(without(diagnostics.to_text(), fake::beside("bad/")), expected);
  }
}

TEST(MistakesTest, EveryMistakeTellsPlaceExpectationAndMend) {
  const Registry& registry = fake::registry();
  for (const std::string& file : fake::files_in("bad", ".yaml")) {
    Diagnostics diagnostics;
    check_file(file, registry, diagnostics);
    for (const Diagnostic& d : diagnostics.list()) {
      EXPECT_GT(d.line, 0) << to_text(d);
      EXPECT_GT(d.column, 0) << to_text(d);
      EXPECT_FALSE(d.expected.empty()) << to_text(d);
      EXPECT_FALSE(d.mend.empty()) << to_text(d);
    }
  }
}

TEST(MistakesTest, ABadSceneIsNotLoaded) {
  const Registry& registry = fake::registry();
  for (const std::string& file : fake::files_in("bad", ".yaml")) {
    Diagnostics diagnostics;
    EXPECT_EQ(load_scene(file, registry, {}, diagnostics), nullptr) << file;
    EXPECT_FALSE(diagnostics.empty()) << file;
  }
}

TEST(MistakesTest, MissingKeysOfASceneAreAllNamed) {
  const fake::Loaded loaded = load_text("seed: 4\nwires: [battery.plus]\n", fake::registry());
  std::vector<std::string> what;
  for (const Diagnostic& d : loaded.diagnostics.list()) what.push_back(d.what);
  EXPECT_EQ(what, (std::vector<std::string>{"\"scene\" is missing", "\"start\" is missing",
                                            "\"parts\" is missing",
                                            "wires: names with values belong here"}));
}

TEST(MistakesTest, ADataSheetIsNoScene) {
  const fake::Loaded loaded = load_text(fake::lamp_sheet(), fake::registry());
  ASSERT_EQ(loaded.diagnostics.list().size(), 1U);
  EXPECT_EQ(loaded.diagnostics.list()[0].what, "a data sheet cannot be run");
}

TEST(MistakesTest, AMistakeInADataSheetIsReportedOnceAtTheSheet) {
  const Registry registry = fake::registry_with_sheet(
      "sheet: small\npart: lamp\ntitle: Small\nvalues:\n"
      "  resistance: {value: 80 V, range: [40 ohm, 120 ohm], source: assumed}\n");
  const fake::Loaded loaded = load_text(
      "scene: Two of a kind\nstart: 2026-01-05\nparts:\n"
      "  one: {type: lamp, sheet: small}\n  two: {type: lamp, sheet: small}\n",
      registry);
  EXPECT_EQ(
      loaded.diagnostics.to_text(),
      "fake/lamp/sheets/small.yaml:5:23: resistance.value: \"V\" is a unit of something else\n"
      "  found:    80 V\n"
      "  expected: a number and a unit, for example \"80 ohm\"\n"
      "  mend:     give it in ohm or a multiple of it\n");
}

TEST(MistakesTest, AValueRefusedByThePartIsReportedWhereItWasWritten) {
  const Registry registry = fake::registry_with_sheet(
      "sheet: small\npart: lamp\ntitle: Small\nvalues:\n"
      "  resistance: {value: 80 ohm, range: [40 ohm, 120 ohm], source: assumed}\n"
      "  flashes: {value: 7, source: assumed}\n");
  const std::string scene =
      "scene: Bright\nstart: 2026-01-05\nparts:\n"
      "  one: {type: lamp, sheet: small, set: {bright: yes}}\n";
  const fake::Loaded by_sheet = load_text(scene, registry);
  ASSERT_EQ(by_sheet.diagnostics.list().size(), 1U);
  EXPECT_EQ(by_sheet.diagnostics.list()[0].file, "fake/lamp/sheets/small.yaml");
  EXPECT_EQ(by_sheet.diagnostics.list()[0].line, 6);
  SceneChanges changes;
  changes.set = {"one.flashes=8"};
  const fake::Loaded by_command_line = load_text(scene, registry, changes);
  EXPECT_EQ(by_command_line.diagnostics.to_text(),
            "command line: --set: one.flashes: a bright lamp flashes five times at most\n"
            "  found:    8\n"
            "  expected: a value that goes with the others\n"
            "  mend:     choose fewer\n");
}

TEST(MistakesTest, MistakesOfTheCommandLineAreReportedWithThoseOfTheFile) {
  SceneChanges changes;
  changes.set = {"lamp.resistence=80 ohm", "lamp.resistance=2 kohm", "lamp=3",
                 "lamp.resistance",        "lmap.resistance=3 ohm",  "lamp.tags=a"};
  changes.action = {"Mon 08:15 lamp.screw_out", "lamp.screw_in", "Mon 25:00 lamp.screw_in",
                    "5 s lamp.dim", ""};
  const fake::Loaded loaded = load_text(
      "scene: Lamp\nstart: 2026-01-05\nsede: 1\nparts:\n"
      "  lamp: {type: lamp, set: {resistance: 80 ohm}}\n",
      fake::registry(), changes);
  std::vector<std::string> what;
  for (const Diagnostic& d : loaded.diagnostics.list()) what.push_back(d.what);
  EXPECT_EQ(what,
            (std::vector<std::string>{
                "a scene has no key \"sede\"", "--set: lamp has no parameter \"resistence\"",
                "--set: lamp.resistance: out of range", "--set: this names nothing",
                "--set: a value belongs here", "--set: there is no part \"lmap\"",
                "--set: lamp.tags: a list cannot be given as one text",
                "--do: a time and a command belong here", "--do: a time and a command belong here",
                "--do: lamp has no command \"screw_out\"",
                "--do: \"25:00\" is not on the dial: hours go from 00 to 23, minutes and "
                "seconds to 59",
                "--do: \"dim\" needs a quantity"}));
  for (const Diagnostic& d : loaded.diagnostics.list()) {
    if (d.line > 0) continue;
    EXPECT_EQ(to_text(d).rfind("command line: ", 0), 0U);
  }
}

TEST(MistakesTest, AValueThatTheCommandLineSetsTwiceIsRefusedNamingBoth) {
  SceneChanges changes;
  changes.set = {"lamp.resistance=80 ohm", "lamp.label=A", "lamp.resistance=90 ohm"};
  const fake::Loaded loaded = load_text(
      "scene: Lamp\nstart: 2026-01-05\nparts:\n  lamp: {type: lamp}\n", fake::registry(), changes);
  EXPECT_EQ(loaded.diagnostics.to_text(),
            "command line: --set: lamp.resistance is set twice\n"
            "  found:    lamp.resistance=90 ohm\n"
            "  expected: one value; set before: lamp.resistance=80 ohm\n"
            "  mend:     leave one of the two out\n");
}

std::string many_parts(std::size_t count, const std::string& part = "{type: wheel}") {
  std::string text = "scene: Many\nstart: 2026-01-05\nparts:\n";
  for (std::size_t i = 0; i < count; ++i) text += "  w" + std::to_string(i) + ": " + part + "\n";
  return text;
}

TEST(MistakesTest, MoreThanFiveThousandPartsAreRefused) {
  EXPECT_NE(load_text(many_parts(4990), fake::registry()).scene, nullptr);
  const fake::Loaded loaded = load_text(many_parts(5001, "{}"), fake::registry());
  ASSERT_EQ(loaded.diagnostics.list().size(), 1U);
  EXPECT_EQ(loaded.diagnostics.list()[0].what, "parts: too many");
}

TEST(MistakesTest, ThousandsOfMistakesAreReportedInOneGo) {
  std::string text = many_parts(1500) + "wires:\n";
  for (int i = 0; i < 1500; ++i)
    text += "  n" + std::to_string(i) + ": [v" + std::to_string(i) + ".a, w" + std::to_string(i) +
            ".b]\n";
  const fake::Loaded loaded = load_text(text, fake::registry());
  EXPECT_EQ(loaded.diagnostics.list().size(), 3000U);
}

}  // namespace
}  // namespace sixty
