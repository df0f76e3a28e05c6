// A part's values as its owner found them: a sheet of their own, taken by the scene.
#include "gui/keep/own_sheet.hpp"

#include <gmock/gmock.h>

#include <set>

#include "sim/base/units.hpp"
#include "tests/cli/folder.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

using testing::HasSubstr;
using testing::Not;

class OwnSheets : public cli::FolderTest {
 protected:
  void take(const std::string& scene) {
    std::filesystem::copy_file(SIXTY_SOURCE_DIR "/scenes/" + scene + ".yaml", path("scene.yaml"),
                               std::filesystem::copy_options::overwrite_existing);
  }
  std::optional<OwnSheetFiles> make(const OwnSheet& own) {
    mistakes_ = {};
    return with_own_sheet(own, get("scene.yaml"), path("scene.yaml"), all_parts(), mistakes_);
  }
  bool save(const OwnSheet& own) {
    const auto files = make(own);
    return files && save_own_sheet(*files, path("scene.yaml"), all_parts(), mistakes_);
  }
  std::shared_ptr<const Installation> load() {
    mistakes_ = {};
    auto scene = load_scene(path("scene.yaml"), all_parts(), {}, mistakes_);
    EXPECT_NE(scene, nullptr) << mistakes_.to_text();
    return scene;
  }
  void expect_value(const std::string& part, const std::string& name, double value) {
    const auto scene = load();
    ASSERT_NE(scene, nullptr);
    EXPECT_EQ(scene->find(part)->values.at(name).number, value) << part;
  }
  static OwnSheet own(const std::string& part, const std::string& value,
                      const std::string& written) {
    return {part,
            "own_piece",
            {{value, written}},
            {"the caretaker", "May", "by bridge at 20 degC"},
            false};
  }
  Diagnostics mistakes_;
};

/// How many lines of one text are not in the other, in their order.
std::size_t other_lines(const std::string& a, const std::string& b) {
  const auto lines = [](const std::string& text) {
    std::vector<std::string> all;
    std::size_t at = 0;
    while (at < text.size()) {
      const std::size_t end = std::min(text.find('\n', at), text.size());
      all.push_back(text.substr(at, end - at));
      at = end + 1;
    }
    return all;
  };
  const auto x = lines(a), y = lines(b);
  std::size_t others = x.size() > y.size() ? x.size() - y.size() : y.size() - x.size();
  if (others == 0) {
    for (std::size_t k = 0; k < x.size(); ++k) others += x[k] != y[k] ? 1 : 0;
  }
  return others;
}

TEST_F(OwnSheets, APartTakesItsOwnersValueAndNoneElseChanges) {
  take("technical-school");
  const auto before = load();
  const std::string text = get("scene.yaml");
  ASSERT_TRUE(save(own("minute_relay", "resistance", "123.5 ohm"))) << mistakes_.to_text();
  EXPECT_EQ(other_lines(text, get("scene.yaml")), 1u);
  const auto after = load();
  ASSERT_EQ(after->parts.size(), before->parts.size());
  for (std::size_t p = 0; p < after->parts.size(); ++p) {
    for (const auto& [name, value] : after->parts[p].values) {
      const double then = before->parts[p].values.at(name).number;
      const bool changed = after->parts[p].name == "minute_relay" && name == "resistance";
      EXPECT_EQ(value.number, changed ? 123.5 : then) << after->parts[p].name << "." << name;
    }
  }
}

TEST_F(OwnSheets, TheSheetTellsWhoWhenAndHow) {
  take("bench-minimal");
  ASSERT_TRUE(save(own("minute_relay", "resistance", "123.5 ohm"))) << mistakes_.to_text();
  const std::string sheet = get("sheets/own_piece.yaml");
  EXPECT_THAT(sheet, HasSubstr("by bridge at 20 degC; the caretaker; May"));
  EXPECT_THAT(sheet, HasSubstr("common practice"));  // of the values that were left
  check_file(path("sheets/own_piece.yaml"), all_parts(), mistakes_);
  check_file(path("scene.yaml"), all_parts(), mistakes_);
  EXPECT_TRUE(mistakes_.empty()) << mistakes_.to_text();
}

TEST_F(OwnSheets, EveryValueOfEveryKindOfPartCanBeSaved) {
  std::size_t tried = 0;
  std::set<std::string> kinds;
  for (const char* name : {"bench-minimal", "dry-cell-mill"}) {
    take(name);
    const auto scene = load();
    for (const PartInstance& part : scene->parts) {
      if (!kinds.insert(part.kind->name).second) continue;
      for (const ParamDecl& decl : part.kind->declaration.params) {
        if (decl.kind != ParamKind::kQuantity || decl.step > 0) continue;
        take(name);
        const Value& value = part.values.at(decl.name);
        OwnSheet sheet = own(part.name, decl.name, format_exact(value.number));
        if (decl.unit != "1")
          sheet.values[0].second += " " + (decl.unit == "delta_K" ? "K" : decl.unit);
        sheet.all_alike = true;
        const auto files = make(sheet);
        ASSERT_TRUE(files) << part.name << "." << decl.name << "\n" << mistakes_.to_text();
        ++tried;
      }
    }
  }
  EXPECT_GT(tried, 120u);
}

TEST_F(OwnSheets, GoBeforeWhatTheSceneHadSetItself) {
  take("bench-minimal");
  ASSERT_TRUE(save(own("movement", "nut_turns", "0.5 turn"))) << mistakes_.to_text();
  EXPECT_THAT(get("scene.yaml"), Not(HasSubstr("nut_turns")));
  expect_value("movement", "nut_turns", 0.5);
  OwnSheet other = own("line_far", "length", "61 m");
  other.name = "own_other";
  ASSERT_TRUE(save(other)) << mistakes_.to_text();
  expect_value("line_far", "length", 61);
}

TEST_F(OwnSheets, AClockOfALineTakesOneForItself) {
  take("technical-school");
  ASSERT_TRUE(save(own("clock_hall", "resistance", "1.6 kohm"))) << mistakes_.to_text();
  expect_value("clock_hall", "resistance", 1600);
  EXPECT_NE(load()->find("clock_porch")->values.at("resistance").number, 1600);
  EXPECT_THAT(get("scene.yaml"),
              HasSubstr("{name: clock_hall, room: main_hall, each: {sheet: own_piece}}"));
}

TEST_F(OwnSheets, AValueThatTheLineSetsForAllIsOutdoneForOne) {
  take("technical-school");
  OwnSheet sheet = own("bell_hall_run", "cross_section", "2 mm2");
  ASSERT_TRUE(save(sheet)) << mistakes_.to_text();
  expect_value("bell_hall_run", "cross_section", 2e-6);
  EXPECT_EQ(load()->find("bell_library_run")->values.at("cross_section").number, 1.5e-6);
}

TEST_F(OwnSheets, OneOfManyWrittenTogetherIsRefusedUnlessAllTakeIt) {
  take("corner-school");
  OwnSheet sheet = own("clock_7", "resistance", "1.6 kohm");
  EXPECT_FALSE(make(sheet));
  EXPECT_THAT(mistakes_.to_text(), HasSubstr("together with others"));
  sheet.all_alike = true;
  ASSERT_TRUE(save(sheet)) << mistakes_.to_text();
  expect_value("clock_7", "resistance", 1600);
  expect_value("clock_20", "resistance", 1600);
}

TEST_F(OwnSheets, ASheetOfTheOwnersIsChangedAgain) {
  take("bench-minimal");
  ASSERT_TRUE(save(own("minute_relay", "resistance", "123.5 ohm"))) << mistakes_.to_text();
  OwnSheet again = own("minute_relay", "turns", "9000");
  ASSERT_TRUE(save(again)) << mistakes_.to_text();
  expect_value("minute_relay", "resistance", 123.5);
  expect_value("minute_relay", "turns", 9000);
  EXPECT_FALSE(make(own("zone_relay", "resistance", "100 ohm")));
  EXPECT_THAT(mistakes_.to_text(), HasSubstr("already"));
}

TEST_F(OwnSheets, WhatIsWrongIsRefusedAndNothingIsWritten) {
  take("bench-minimal");
  const std::string text = get("scene.yaml");
  const auto refused = [&](OwnSheet sheet) {
    EXPECT_FALSE(save(sheet));
    return mistakes_.to_text();
  };
  EXPECT_THAT(refused(own("minute_relay", "resistance", "5 V")), HasSubstr("minute_relay"));
  EXPECT_THAT(refused(own("minute_relay", "resistance", "-5 ohm")), HasSubstr("out of range"));
  EXPECT_THAT(refused(own("minute_relay", "resistence", "5 ohm")), HasSubstr("resistance"));
  EXPECT_THAT(refused(own("nobody", "resistance", "5 ohm")), HasSubstr("no such part"));
  OwnSheet sheet = own("minute_relay", "resistance", "5 ohm");
  sheet.name = "piece";
  EXPECT_THAT(refused(sheet), HasSubstr("own_"));
  sheet.name = "own_../../x";
  EXPECT_THAT(refused(sheet), HasSubstr("own_"));
  sheet = own("minute_relay", "resistance", "5 ohm");
  sheet.provenance.how = " ";
  EXPECT_THAT(refused(sheet), HasSubstr("how"));
  EXPECT_EQ(get("scene.yaml"), text);
  EXPECT_EQ(files(), 1u);
}

TEST_F(OwnSheets, WhereTheyCannotBeWrittenTheSceneStays) {
  take("bench-minimal");
  const std::string text = get("scene.yaml");
  put("sheets", "a file, no folder");
  EXPECT_FALSE(save(own("minute_relay", "resistance", "120 ohm")));
  EXPECT_THAT(mistakes_.to_text(), HasSubstr("cannot be kept"));
  EXPECT_EQ(get("scene.yaml"), text);
}

TEST_F(OwnSheets, WhereTheSceneCannotTakeItTheSheetIsAsItWas) {
  take("bench-minimal");
  auto sheet_files = make(own("minute_relay", "resistance", "120 ohm"));
  ASSERT_TRUE(sheet_files) << mistakes_.to_text();
  sheet_files->scene_text += "nonsense: 5\n";
  EXPECT_FALSE(save_own_sheet(*sheet_files, path("scene.yaml"), all_parts(), mistakes_));
  EXPECT_FALSE(std::filesystem::exists(sheet_files->sheet_path));
  std::filesystem::create_directories(path("sheets"));
  put("sheets/own_piece.yaml", "as it was");
  EXPECT_FALSE(save_own_sheet(*sheet_files, path("scene.yaml"), all_parts(), mistakes_));
  EXPECT_EQ(get("sheets/own_piece.yaml"), "as it was");
}

TEST_F(OwnSheets, OneThatIsNotThereIsTold) {
  take("bench-minimal");
  std::string text = get("scene.yaml");
  const std::string before = "{type: relay, sheet: minute_relay}";
  text.replace(text.find(before), before.size(), "{type: relay, sheet: own_lost}");
  put("scene.yaml", text);
  Diagnostics mistakes;
  EXPECT_EQ(load_scene(path("scene.yaml"), all_parts(), {}, mistakes), nullptr);
  EXPECT_THAT(mistakes.to_text(), HasSubstr("sheets/own_lost.yaml"));
}

}  // namespace
}  // namespace sixty::gui
