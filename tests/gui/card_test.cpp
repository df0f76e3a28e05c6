// What the card offers for a hand is what the part has, and its values tell where they come from.
#include <gtest/gtest.h>

#include <set>

#include "gui/bench/card.hpp"
#include "gui/bench/panel_pieces.hpp"
#include "gui/strip/lanes.hpp"
#include "sim/run/session.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

class CardOf : public testing::Test {
 protected:
  PartId id(const char* part) const { return installation_->find_id(part).value(); }
  std::size_t command(const char* part, const std::string& name) const {
    const auto& commands = installation_->parts[id(part)].kind->declaration.commands;
    for (std::size_t k = 0; k < commands.size(); ++k) {
      if (commands[k].name == name) return k;
    }
    ADD_FAILURE() << part << " has no command " << name;
    return 0;
  }
  std::string value_set(const char* part, const char* name) const {
    return installation_->parts[id(part)].kind->declaration.commands[command(part, name)].sets;
  }
  Offered offered(const char* part, const char* name, const std::vector<Action>& log = {},
                  SimTime now = 0, const std::vector<double>& readings = {}) const {
    return offered_for(*installation_, id(part), command(part, name), log, now, readings);
  }
  double value(const char* part, const char* name) const {
    return installation_->parts[id(part)].values.at(name).number;
  }

  std::shared_ptr<const Installation> installation_ = bench_scene({}, "technical-school");
};

TEST_F(CardOf, ACommandDeclaresTheValueThatItSets) {
  EXPECT_EQ(value_set("minute_relay", "set_gap"), "stroke");
  EXPECT_EQ(value_set("minute_relay", "set_spring"), "preload");
  EXPECT_EQ(value_set("arm_b", "set_force"), "contact_force");
  EXPECT_EQ(value_set("movement", "set_crutch"), "crutch_offset");
  EXPECT_EQ(value_set("movement", "start"), "");
}

/// Of every part: what is declared to be set is there, and is such a quantity.
TEST(Commands, SetOrBeginWithAValueOrReadingOfTheirPart) {
  std::size_t told = 0;
  for (const auto& [part, kind] : all_parts().entries()) {
    const Declaration& declared = kind.declaration;
    for (const CommandDecl& command : declared.commands) {
      const std::string& name = command.sets.empty() ? command.begins_with : command.sets;
      if (command.name.starts_with("set_") && command.argument->unit != "s") {
        EXPECT_FALSE(command.sets.empty()) << kind.name << " " << command.name;
      }
      if (name.empty()) continue;
      ASSERT_TRUE(command.argument.has_value()) << kind.name << " " << command.name;
      const auto fits = [&](const auto& of) {
        return of.name == name &&
               (of.unit == command.argument->unit || command.argument->kind == ParamKind::kCount);
      };
      const auto any = [&](const auto& all) { return std::any_of(all.begin(), all.end(), fits); };
      EXPECT_TRUE(any(declared.params) || any(declared.readings)) << kind.name << " " << name;
      ++told;
    }
  }
  EXPECT_GT(told, 20U);
}

/// What the paper has no column for, and the wheel no pins, cannot be done to them.
TEST_F(CardOf, NoColumnIsOfferedThatATapeHasNot) {
  const Part& tape = *installation_->parts[id("tape")].part;
  EXPECT_TRUE(tape.has_use_for(command("tape", "punch_4")));
  EXPECT_FALSE(tape.has_use_for(command("tape", "punch_5")));
  EXPECT_FALSE(tape.has_use_for(command("tape", "patch_8")));
  EXPECT_TRUE(tape.has_use_for(command("tape", "set_row")));
  const Part& wheel = *installation_->parts[id("week_wheel")].part;
  EXPECT_TRUE(wheel.has_use_for(command("week_wheel", "pull_pin_4")));
  EXPECT_FALSE(wheel.has_use_for(command("week_wheel", "fit_pin_5")));
  EXPECT_TRUE(wheel.has_use_for(command("week_wheel", "advance")));
}

TEST_F(CardOf, APresentValueIsOfferedNotTheLeast) {
  const Offered gap = offered("minute_relay", "set_gap");
  EXPECT_TRUE(gap.is_present);
  EXPECT_EQ(gap.number, value("minute_relay", "stroke"));
}

TEST_F(CardOf, WhatAHandHasSetIsOfferedFromThenOn) {
  Action action;
  action.at = 5 * kSecond;
  action.part = id("minute_relay");
  action.command = command("minute_relay", "set_gap");
  action.value = 1.5e-3;
  EXPECT_EQ(offered("minute_relay", "set_gap", {action}, 6 * kSecond).number, 1.5e-3);
  EXPECT_EQ(offered("minute_relay", "set_gap", {action}, 4 * kSecond).number,
            value("minute_relay", "stroke"));
}

/// What is set by no command alone still begins where the part is.
TEST_F(CardOf, AReadingIsOfferedWhereNoValueIs) {
  const Offered row = offered("tape", "punch_1", {}, 0, {17});
  EXPECT_EQ(row.number, 17);
  EXPECT_FALSE(row.is_present);
}

TEST_F(CardOf, APendulumIsOfferedAnArcThatFreesTheWheel) {
  const Offered arc = offered("movement", "start");
  EXPECT_FALSE(arc.is_present);
  EXPECT_GT(arc.number, value("movement", "escaping_arc"));
}

/// Whatever is offered can be done as it is written.
TEST_F(CardOf, EveryOfferIsTakenAgainAsItIsWritten) {
  Session session(installation_);
  session.seek(5 * kSecond);
  for (PartId p = 0; p < installation_->parts.size(); ++p) {
    const PartInstance& part = installation_->parts[p];
    const Declaration& declared = part.kind->declaration;
    std::vector<double> readings;
    for (std::size_t k = 0; k < declared.readings.size(); ++k)
      readings.push_back(session.read(p, k));
    for (std::size_t k = 0; k < declared.commands.size(); ++k) {
      if (!declared.commands[k].argument) continue;
      const ParamDecl& argument = *declared.commands[k].argument;
      const double number = offered_for(*installation_, p, k, {}, 0, readings).number;
      const std::string written = written_number(argument, number);
      std::string wrong;
      const auto read = value_of(argument, written, wrong);
      ASSERT_TRUE(read) << part.name << " " << declared.commands[k].name << " " << written << ": "
                        << wrong;
      EXPECT_NEAR(read->number, number, 1e-3 * std::abs(number) + 1e-9) << written;
    }
  }
}

TEST_F(CardOf, AClockIsOfferedTheTimeThatItShows) {
  Session session(installation_);
  session.seek(3 * kMinute);
  std::vector<double> readings;
  const PartId clock = id("clock_104");
  const Declaration& declared = installation_->parts[clock].kind->declaration;
  for (std::size_t k = 0; k < declared.readings.size(); ++k)
    readings.push_back(session.read(clock, k));
  const Offered time = offered("clock_104", "set", {}, 0, readings);
  EXPECT_EQ(written_number(*declared.commands[command("clock_104", "set")].argument, time.number),
            "0:03");
}

/// As people want them: shares in per cent, beats to the microsecond, a dial's time as it shows it.
TEST_F(CardOf, ReadingsAreToldInWhatTheyAreAbout) {
  const auto told = [&](const char* part, const std::string& name, double number) -> std::string {
    for (const NamedDecl& reading : installation_->parts[id(part)].kind->declaration.readings) {
      if (reading.name == name) return shown_text(number, reading);
    }
    return "there is no such reading";
  };
  EXPECT_EQ(told("movement", "tick", 1.0000234), "1.000023 s");
  EXPECT_EQ(told("main_fuse", "heat", 0.0321), "3.21 %");
  EXPECT_EQ(told("arm_b", "eroded", 2.5e-12), "0.0025 mm3");
  EXPECT_EQ(told("arm_b", "eroded", 0), "0 mm3");
  EXPECT_EQ(told("clock_104", "shown", 30600), "8:30");
  EXPECT_EQ(told("clock_104", "error_min", -485), "-485 min");
  EXPECT_EQ(told("minute_relay", "gap", 0), "0 mm");
}

TEST_F(CardOf, AReadingsNameLeavesTheUnitToItsValue) {
  std::set<std::string> names;
  for (const NamedDecl& reading : installation_->parts[id("clock_104")].kind->declaration.readings)
    names.insert(words_of_reading(reading));
  EXPECT_TRUE(names.count("error") == 1 && names.count("off master") == 1);
  EXPECT_EQ(names.count("error min"), 0U);
}

TEST(WrittenNumber, IsInAUnitOfTheTradeAndStaysAStep) {
  EXPECT_EQ(written_number(quantity_field("gap", "m", 0, 1, ""), 2.0172e-3), "2.017 mm");
  EXPECT_EQ(written_number(quantity_field("tap", "1", 0, 2, ""), 1), "1");
  const ParamDecl time = in_steps_of(60, quantity_field("time", "s", 0, 43200, ""));
  EXPECT_EQ(written_number(time, 30660), "511 min");
}

TEST(ValueOf, TellsWhatIsNoQuantityOrOutOfRange) {
  const ParamDecl gap = quantity_field("gap", "m", 1e-3, 4e-3, "");
  for (const char* bad : {"", "much", "2", "2 V", "9 mm", "nan m", "1e999 m"}) {
    std::string wrong;
    EXPECT_FALSE(value_of(gap, bad, wrong)) << bad;
    EXPECT_FALSE(wrong.empty()) << bad;
  }
}

TEST_F(CardOf, ValuesOfADataSheetTellTheirSource) {
  const PartInstance& part = installation_->parts[id("movement")];
  const SheetSources sources = sources_of(part, "");
  EXPECT_FALSE(sources.title.empty());
  EXPECT_NE(sources.lines.at("rod_expansion").source.find("PEND-29"), std::string::npos);
  EXPECT_EQ(sources.lines.at("escaping_arc").tolerance, "5 %");
  EXPECT_GT(sources.unpublished(), 0U);
  EXPECT_LT(sources.unpublished(), sources.lines.size());
}

}  // namespace
}  // namespace sixty::gui
