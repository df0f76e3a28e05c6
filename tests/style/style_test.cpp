#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "tests/style/rules.hpp"
#include "tests/style/scan.hpp"

namespace sixty::style {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

const Tree& our_tree() {
  static const Tree tree = read_tree(SIXTY_SOURCE_DIR);
  return tree;
}

/// One finding a line: a failing test then shows all of them.
std::string listed(const Findings& findings) {
  return fmt::format("{}", fmt::join(findings, "\n"));
}

// The tree as it is.

TEST(TreeTest, IsFound) { EXPECT_GT(our_tree().size(), 10u); }

TEST(TreeTest, IncludesPointDownTheLayersOnly) {
  EXPECT_EQ(listed(wrong_includes(our_tree())), "");
}

TEST(TreeTest, NoFileOutsideItsFolderNamesAPart) {
  EXPECT_EQ(listed(parts_named_outside(our_tree())), "");
}

TEST(TreeTest, EngineAndPartsKnowNoGraphics) {
  EXPECT_EQ(listed(graphics_in_engine(our_tree())), "");
}

TEST(TreeTest, EngineAndPartsCallOnlyWhatRepeats) {
  EXPECT_EQ(listed(unrepeatable_calls(our_tree())), "");
}

TEST(TreeTest, EngineAndPartsHaveNoUnorderedContainers) {
  EXPECT_EQ(listed(unordered_containers(our_tree())), "");
}

TEST(TreeTest, WhatTheWindowSaysGoesByTheCatalogues) {
  EXPECT_EQ(listed(untranslated_words(our_tree())), "");
}

TEST(TreeTest, NoFileIsOverlong) { EXPECT_EQ(listed(overlong_files(our_tree())), ""); }

// Each rule broken once, on made-up trees.

TEST(LayerRuleTest, AnArrowUpwardsIsFound) {
  EXPECT_THAT(wrong_includes({{"sim/base/a.hpp", "#pragma once\n#include \"sim/kernel/b.hpp\"\n"}}),
              ElementsAre("sim/base/a.hpp:2: sim/base may not include sim/kernel/b.hpp"));
}

TEST(LayerRuleTest, AnArrowDownwardsIsAllowed) {
  EXPECT_THAT(wrong_includes({{"sim/kernel/a.hpp", "#include \"sim/base/b.hpp\"\n"},
                              {"sim/cli/a.cpp", "#include \"models/part_list.hpp\"\n"},
                              {"models/gong/a.cpp", "#include \"models/gong/a.hpp\"\n"}}),
              IsEmpty());
}

TEST(LayerRuleTest, OnePartMayNotIncludeAnother) {
  EXPECT_THAT(wrong_includes({{"models/gong/a.cpp", "#include \"models/horn/b.hpp\"\n"}}),
              ElementsAre("models/gong/a.cpp:1: models/gong may not include models/horn/b.hpp"));
}

TEST(LayerRuleTest, APartMayNotIncludeKernelOrRun) {
  EXPECT_THAT(wrong_includes({{"models/gong/a.cpp",
                               "#include \"sim/kernel/b.hpp\"\n#include \"sim/run/c.hpp\"\n"}}),
              ElementsAre("models/gong/a.cpp:1: models/gong may not include sim/kernel/b.hpp",
                          "models/gong/a.cpp:2: models/gong may not include sim/run/c.hpp"));
}

TEST(LayerRuleTest, TheWindowDoesNoPhysics) {
  EXPECT_THAT(wrong_includes({{"gui/app/a.cpp",
                               "# include \"sim/circuit/b.hpp\"\n#include \"sim/run/c.hpp\"\n"}}),
              ElementsAre("gui/app/a.cpp:1: gui may not include sim/circuit/b.hpp"));
}

TEST(LayerRuleTest, AFolderThatIsNotInTheTableIsFound) {
  EXPECT_THAT(wrong_includes({{"sim/extra/a.cpp", ""}}),
              ElementsAre("sim/extra/a.cpp:1: sim/extra is not in the table of layers"));
}

TEST(PartWordRuleTest, APartIsFoundHoweverItIsSpelled) {
  const Tree tree = {{"models/steam_horn/a.cpp", ""},
                     {"sim/run/a.cpp", "int x;\nSteamHornState s;\n// two steam horns\n"},
                     {"sim/run/b.cpp", "kSteamHorn\nsteam_horn_part()\n"},
                     {"gui/start", "steam-horn"},
                     {"tests/CMakeLists.txt", "STEAM_HORN"}};
  EXPECT_THAT(parts_named_outside(tree),
              ElementsAre("sim/run/a.cpp:2: names the part steam_horn",
                          "sim/run/a.cpp:3: names the part steam_horn",
                          "sim/run/b.cpp:1: names the part steam_horn",
                          "sim/run/b.cpp:2: names the part steam_horn",
                          "gui/start:1: names the part steam_horn",
                          "tests/CMakeLists.txt:1: names the part steam_horn"));
}

TEST(PartWordRuleTest, OtherWordsAndPlacesAreAllowed) {
  const Tree tree = {{"models/gong/a.cpp", "gong"},
                     {"tests/models/a_test.cpp", "gong"},
                     {"sim/run/a.cpp", "gongoozler agong"}};
  EXPECT_THAT(parts_named_outside(tree), IsEmpty());
}

TEST(PartWordRuleTest, ElementsOfTheNetworkMayBeCalledSoWhereTheyAreHandled) {
  const Tree tree = {{"models/coil/a.cpp", ""},
                     {"models/switch/a.cpp", ""},
                     {"sim/circuit/a.cpp", "coil switch"},
                     {"sim/part/a.cpp", "add_coil(coil);"},
                     {"sim/part/b.cpp", "switch (x) {"},
                     {"sim/part/c.cpp", "a switch"},
                     {"sim/cli/a.cpp", "coil"}};
  EXPECT_THAT(parts_named_outside(tree), ElementsAre("sim/part/c.cpp:1: names the part switch",
                                                     "sim/cli/a.cpp:1: names the part coil"));
}

TEST(GraphicsRuleTest, AGraphicsHeaderInTheEngineIsFound) {
  EXPECT_THAT(graphics_in_engine({{"sim/run/a.cpp", "#include <SFML/Graphics.hpp>\n"},
                                  {"models/gong/a.cpp", "#include <imgui.h>\n"},
                                  {"gui/app/a.cpp", "#include <imgui.h>\n"},
                                  {"sim/run/b.cpp", "#include <vector>\n"}}),
              ElementsAre("sim/run/a.cpp:1: includes SFML/Graphics.hpp",
                          "models/gong/a.cpp:1: includes imgui.h"));
}

TEST(RepeatRuleTest, MachineDependentFunctionsAreFound) {
  EXPECT_THAT(
      unrepeatable_calls(
          {{"sim/circuit/a.cpp", "double y = std::exp(x);\n"},
           {"models/gong/a.cpp", "double y = pow (x, 2);\n"},
           {"sim/kernel/a.cpp", "det_exp(x); sqrt(x); trace.log(x); log();  // exp(x)\n"},
           {"sim/run/a.cpp", "A() : log(script) {}\n"},
           {"sim/run/b.cpp", "#include <cmath>\ndouble y = log(2);\n"},
           {"sim/run/c.cpp", "double y = std::log(2);\n"}}),
      ElementsAre("sim/circuit/a.cpp:1: exp() differs between machines; use sim/base/math.hpp",
                  "models/gong/a.cpp:1: pow() differs between machines; use sim/base/math.hpp",
                  "sim/run/b.cpp:2: log() differs between machines; use sim/base/math.hpp",
                  "sim/run/c.cpp:1: log() differs between machines; use sim/base/math.hpp"));
}

TEST(RepeatRuleTest, ChanceAndWallClockAreFound) {
  EXPECT_THAT(unrepeatable_calls(
                  {{"sim/run/a.cpp", "std::random_device d;\nstd::chrono::steady_clock::now();\n"},
                   {"sim/cli/a.cpp", "std::chrono::steady_clock::now();\n"},
                   {"models/gong/a.cpp", "std::normal_distribution<double> n;\n"}}),
              ElementsAre("sim/run/a.cpp:1: random_device is not repeatable",
                          "sim/run/a.cpp:2: steady_clock reads the wall clock outside sim/cli",
                          "models/gong/a.cpp:1: normal_distribution is not repeatable"));
}

TEST(OrderRuleTest, AnUnorderedContainerIsFound) {
  EXPECT_THAT(unordered_containers({{"sim/run/a.cpp", "std::unordered_map<int, int> m;\n"},
                                    {"sim/circuit/memo.hpp", "#include <unordered_map>\n"}}),
              ElementsAre("sim/run/a.cpp:1: unordered_map has no fixed order"));
}

TEST(WordsRuleTest, WordsThatAreShownAsTheyStandAreFound) {
  EXPECT_THAT(untranslated_words({{"gui/a.cpp",
                                   "if (ImGui::Button(\"Go\", size)) go();\n"
                                   "show_heading(font, \"Time\");\n"
                                   "ImGui::Button(tr(\"Go\"));\n"
                                   "ImGui::Button(\"x##close\");\n"}}),
              ElementsAre("gui/a.cpp:1: words that no language translates; write tr(\"...\")",
                          "gui/a.cpp:2: words that no language translates; write tr(\"...\")"));
}

TEST(LengthRuleTest, TheLineAfterTheLastAllowedIsFound) {
  std::string text;
  for (int i = 0; i < 500; ++i) text += "int x;\n";
  EXPECT_THAT(overlong_files({{"sim/run/a.cpp", text}}), IsEmpty());
  EXPECT_THAT(overlong_files({{"sim/run/a.cpp", text + "int x;\n"}}),
              ElementsAre("sim/run/a.cpp:501: 501 lines; 500 are the most"));
}

TEST(CodeOnlyTest, CommentsAndLiteralsAreBlank) {
  EXPECT_EQ(code_only("a // b\nc"), "a     \nc");
  EXPECT_EQ(code_only("a /* b\n */ c"), "a     \n    c");
  EXPECT_EQ(code_only("f(\"x\\\"y\", 'z')"), "f(      ,    )");
  EXPECT_EQ(code_only("1'000 + 2'000"), "1'000 + 2'000");
  EXPECT_EQ(code_only("R\"--(\"x)--\" y"), "            y");
}

}  // namespace
}  // namespace sixty::style
