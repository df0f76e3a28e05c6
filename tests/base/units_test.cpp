#include "sim/base/units.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <thread>
#include <vector>

#include "sim/base/unit_system.hpp"

namespace sixty {
namespace {

double si(const std::string& text, const std::string& unit) {
  std::string error;
  const std::optional<double> value = parse_quantity(text, unit, error);
  EXPECT_TRUE(value) << text << ": " << error;
  return value.value_or(NAN);
}

Diagnostic refusal(const std::string& text, const std::string& unit) {
  Diagnostic mistake;
  EXPECT_FALSE(parse_quantity(text, unit, mistake)) << text;
  EXPECT_FALSE(mistake.what.empty()) << text;
  EXPECT_FALSE(mistake.expected.empty()) << text;
  EXPECT_FALSE(mistake.mend.empty()) << text;
  return mistake;
}

// The fields that parts are likely to have; every one of them has a worked example.
const std::vector<std::string> kFields{
    "",    "1",     "V",     "A",   "ohm",  "H",      "F",       "s",       "m",
    "m2",  "kg",    "N",     "N.m", "N/m",  "rad",    "K",       "delta_K", "1/K",
    "C",   "Hz",    "W",     "J",   "turn", "row",    "cell",    "beat",    "tooth",
    "Pa",  "kg.m2", "ohm.m", "m/s", "m/s2", "rad/s",  "N.m/rad", "kg/m3",   "s/day",
    "A/m", "T",     "Wb",    "V/K", "m3",   "J/kg/K", "S"};

TEST(QuantityTest, UnitsBecomeThoseOfTheField) {
  EXPECT_EQ(si("24 V", "V"), 24);
  EXPECT_EQ(si("24V", "V"), 24);
  EXPECT_EQ(si(" 24 V ", "V"), 24);
  EXPECT_EQ(si("-2.5e-3 A", "A"), -0.0025);
  EXPECT_EQ(si("+1E3mV", "V"), 1);
  EXPECT_EQ(si("4.7 kohm", "ohm"), 4700);
  EXPECT_EQ(si("0.4 H", "H"), 0.4);
  EXPECT_EQ(si("15 g", "kg"), 0.015);
  EXPECT_EQ(si("3 mm", "m"), 0.003);
  EXPECT_EQ(si("0.28 mm2", "m2"), 0.28e-6);
  EXPECT_EQ(si("1.5 mN.m", "N.m"), 0.0015);
  EXPECT_EQ(si("2 N/mm", "N/m"), 2000);
  EXPECT_EQ(si("60 Ah", "C"), 216000);
  EXPECT_EQ(si("850 mAh", "C"), 3060);
  EXPECT_EQ(si("50 gf", "N"), 50 * 0.00980665);
  EXPECT_EQ(si("2 kgf", "N"), 19.6133);
  EXPECT_EQ(si("1013.25 hPa", "Pa"), 101325);
  EXPECT_EQ(si("1 bar", "Pa"), 1e5);
  EXPECT_EQ(si("3 d", "s"), 259200);
  EXPECT_EQ(si("39 in", "m"), 39 * 0.0254);
  EXPECT_EQ(si("12 ppm/K", "1/K"), 12e-6);
  EXPECT_EQ(si("3.9e-3 1/K", "1/K"), 3.9e-3);
  EXPECT_EQ(si("2 g.cm2", "kg.m2"), 2e-7);
  EXPECT_EQ(si("460 J/kg/K", "J/kg/K"), 460);
  EXPECT_DOUBLE_EQ(si("180 deg", "rad"), 3.14159265358979323846);
  EXPECT_DOUBLE_EQ(si("60 rpm", "rad/s"), 2 * 3.14159265358979323846);
  EXPECT_DOUBLE_EQ(si("1 mN.m/deg", "N.m/rad"), 0.18 / 3.14159265358979323846);
}

TEST(QuantityTest, SignsOfPrintAreUnderstood) {
  EXPECT_EQ(si("80 \xCE\xA9", "ohm"), 80);
  EXPECT_EQ(si("80 k\xE2\x84\xA6", "ohm"), 80e3);
  EXPECT_EQ(si("5 \xC2\xB5s", "s"), 5e-6);
  EXPECT_EQ(si("5 \xCE\xBCs", "s"), 5e-6);
  EXPECT_EQ(si("80 mm\xC2\xB2", "m2"), 80e-6);
  EXPECT_EQ(si("80 mm^2", "m2"), 80e-6);
  EXPECT_EQ(si("3 mN\xC2\xB7m", "N.m"), 0.003);
  EXPECT_EQ(si("3 mN*m", "N.m"), 0.003);
  EXPECT_EQ(si("2 K\xE2\x81\xBB\xC2\xB9", "1/K"), 2);
  EXPECT_DOUBLE_EQ(si("90 \xC2\xB0", "rad"), 3.14159265358979323846 / 2);
}

TEST(QuantityTest, DecimalPrefixesAreExact) {
  EXPECT_EQ(si("72.1 ms", "s"), 0.0721);
  EXPECT_EQ(si("0.7 um", "m"), 0.7e-6);
  EXPECT_EQ(si("4.35 cm", "m"), 0.0435);
  EXPECT_EQ(si("33 %", ""), 0.33);
  EXPECT_EQ(si("1.005 uF", "F"), 1.005e-6);
}

TEST(QuantityTest, TemperaturesHaveTwoZerosAndDifferencesNone) {
  EXPECT_DOUBLE_EQ(si("20 degC", "K"), 293.15);
  EXPECT_DOUBLE_EQ(si("-40 \xC2\xB0"
                      "C",
                      "K"),
                   233.15);
  EXPECT_DOUBLE_EQ(si("-40 degF", "K"), 233.15);
  EXPECT_DOUBLE_EQ(si("68 \xC2\xB0"
                      "F",
                      "K"),
                   293.15);
  EXPECT_EQ(si("5 K", "K"), 5);
  EXPECT_EQ(si("5 K", "delta_K"), 5);
  EXPECT_EQ(si("12 ppm/degC", "1/K"), 12e-6);
  EXPECT_NE(refusal("5 degC", "delta_K").what.find("difference"), std::string::npos);
  EXPECT_NE(refusal("20 C", "K").mend.find("degC"), std::string::npos);
}

TEST(QuantityTest, PlainNumbersTakePercentAndRates) {
  EXPECT_EQ(si("0.5", ""), 0.5);
  EXPECT_EQ(si("0.5", "1"), 0.5);
  EXPECT_EQ(si("50 %", "1"), 0.5);
  EXPECT_EQ(si("50%", "1"), 0.5);
  EXPECT_EQ(si("5 ppm", "1"), 5e-6);
  EXPECT_EQ(si("8.64 s/day", "1"), 1e-4);
  EXPECT_EQ(si("4.3 s/d", "s/day"), 4.3);
  refusal("0.5 V", "1");
  refusal("5 turns", "1");
  refusal("5 deg", "1");
}

TEST(QuantityTest, CountsTakeABareNumber) {
  EXPECT_EQ(si("9000", "turn"), 9000);
  EXPECT_EQ(si("9000 turns", "turn"), 9000);
  EXPECT_EQ(si("1 turn", "turn"), 1);
  EXPECT_EQ(si("12 cells", "cell"), 12);
  EXPECT_EQ(si("1 row", "row"), 1);
  EXPECT_EQ(si("2 beats", "beat"), 2);
  EXPECT_EQ(si("1 tooth", "tooth"), 1);
  EXPECT_EQ(si("30 teeth", "tooth"), 30);
  refusal("12 cells", "turn");
  refusal("1 turn", "rad");
}

TEST(QuantityTest, ADimensionIsNeverGuessed) {
  const Diagnostic bare = refusal("24", "V");
  EXPECT_EQ(bare.what, "the number has no unit");
  EXPECT_NE(bare.mend.find("24 V"), std::string::npos);
  for (const auto& [text, unit] :
       std::vector<std::pair<std::string, std::string>>{{"24 A", "V"},
                                                        {"24 %", "V"},
                                                        {"5 s", "Hz"},
                                                        {"50 Hz", "s"},
                                                        {"50 Hz", "rad/s"},
                                                        {"5 rad/s", "Hz"},
                                                        {"5 N.m", "N.m/rad"},
                                                        {"5 S", "ohm"},
                                                        {"5 m", "m2"},
                                                        {"5 Ah", "A"},
                                                        {"5 H", "s"},
                                                        {"5 h", "H"}})
    EXPECT_NE(refusal(text, unit).what.find("something else"), std::string::npos) << text;
}

// What the units library would let through on its own.
TEST(QuantityTest, TrapsOfTheUnitsLibraryAreRefused) {
  refusal("2m35.05s", "s");
  refusal("24 24 V", "V");
  refusal("5 a", "m2");
  refusal("nan V", "V");
  refusal("1e400 V", "V");
  refusal("1e-400 V", "V");
  refusal("24 2V", "V");
  refusal("24 V V", "V");
  refusal("5 V.s.s-", "V");
  refusal("5 s since 1970-01-01", "s");
  refusal("5 lg(re 1 V)", "V");
  refusal("5 s @ 3", "s");
  refusal("5 (V)", "V");
  refusal("5 V^99", "V");
  refusal("5 /V", "V");
  refusal("5 V/", "V");
  refusal("5 V//A", "ohm");
  refusal("5 1V", "V");
  refusal("5 _V", "V");
}

TEST(QuantityTest, NumbersOfOtherNotationsAreRefusedWithAHint) {
  const std::vector<std::pair<std::string, std::string>> cases{{"", "empty"},
                                                               {"V", "no number"},
                                                               {"24,5 V", "comma"},
                                                               {"1,000 V", "comma"},
                                                               {"1_000 V", "underscore"},
                                                               {"0x18 V", "hexadecimal"},
                                                               {"0b1 V", "octal"},
                                                               {"0o17 V", "octal"},
                                                               {"017 V", "octal"},
                                                               {".5 V", "0.5"},
                                                               {"5. V", "point"},
                                                               {"1.2.3 V", "points"},
                                                               {".inf", "finite"},
                                                               {"-Infinity", "finite"},
                                                               {".NaN", "finite"},
                                                               {"1 000 V", "two numbers"},
                                                               {"5 -3 V", "two numbers"},
                                                               {"10:15", "time of day"},
                                                               {"24  V", "space"},
                                                               {"\xE2\x88\x92"
                                                                "5 V",
                                                                "minus"},
                                                               {"--5 V", "no number"},
                                                               {"1e99999 V", "exponent"},
                                                               {"24\tV", "not a unit"},
                                                               {"24\nV", "not a unit"}};
  for (const auto& [text, hint] : cases)
    EXPECT_NE(refusal(text, "V").what.find(hint), std::string::npos)
        << text << " gives " << refusal(text, "V").what;
  refusal(std::string(1'000'000, '1') + " V", "V");
  refusal("1" + std::string(1'000'000, ' ') + "V", "V");
  refusal(std::string("24 V\0", 5), "V");
  refusal("24 \xFF", "V");
}

TEST(QuantityTest, AnUnknownUnitGetsTheNearestOne) {
  EXPECT_NE(refusal("24 volst", "V").mend.find("\"volt\""), std::string::npos);
  EXPECT_NE(refusal("80 Kohm", "ohm").mend.find("\"kohm\""), std::string::npos);
  EXPECT_NE(refusal("5 Nm", "N.m").mend.find("\"N.m\""), std::string::npos);
  EXPECT_NE(refusal("5 N.mn", "N.m").what.find("\"mn\""), std::string::npos);
}

TEST(QuantityTest, TheLineOfTextHoldsEverything) {
  std::string error;
  EXPECT_FALSE(parse_quantity("24", "V", error));
  EXPECT_EQ(error,
            "\"24\": the number has no unit; expected a number and a unit, for example \"24 V\"; "
            "write the unit, as in \"24 V\"");
}

TEST(QuantityTest, EveryLikelyFieldIsKnownAndItsExampleIsRead) {
  for (const std::string& field : kFields) {
    EXPECT_TRUE(is_unit(field)) << field;
    std::string error;
    EXPECT_TRUE(parse_quantity(example_quantity(field), field, error)) << field << error;
  }
  EXPECT_FALSE(is_unit("furlong"));
  EXPECT_FALSE(is_unit("m35"));
  EXPECT_FALSE(is_unit("m9"));
  EXPECT_FALSE(is_unit("m0"));
  EXPECT_FALSE(is_unit(" "));
}

TEST(QuantityTest, EveryNameOfTheTableIsAUnit) {
  EXPECT_GT(unit_names().size(), 100U);
  for (const std::string& name : unit_names()) EXPECT_TRUE(is_unit(name)) << name;
  std::vector<std::string> sorted = unit_names();
  std::sort(sorted.begin(), sorted.end());
  EXPECT_EQ(std::adjacent_find(sorted.begin(), sorted.end()), sorted.end()) << "a name twice";
}

TEST(QuantityTest, ThreadsMayReadAtTheSameTime) {
  std::vector<std::thread> threads;
  std::vector<int> right(4, 0);
  for (std::size_t i = 0; i < right.size(); ++i)
    threads.emplace_back([&right, i] {
      std::string error;
      for (int n = 0; n < 3000; ++n)
        if (parse_quantity("1.5 mN.m", "N.m", error) == 0.0015) ++right[i];
    });
  for (std::thread& thread : threads) thread.join();
  EXPECT_EQ(right, std::vector<int>(4, 3000));
}

TEST(FormatTest, QuantitiesReadWell) {
  EXPECT_EQ(format_quantity(0.0314, "N.m"), "31.4 mN.m");
  EXPECT_EQ(format_quantity(0.0721, "s"), "72.1 ms");
  EXPECT_EQ(format_quantity(0.136, "A"), "0.136 A");
  EXPECT_EQ(format_quantity(24, "V"), "24 V");
  EXPECT_EQ(format_quantity(0, "V"), "0 V");
  EXPECT_EQ(format_quantity(-0.0123456, "V"), "-12.35 mV");
  EXPECT_EQ(format_quantity(4700, "ohm"), "4.7 kohm");
  EXPECT_EQ(format_quantity(1e-6, "F"), "1 uF");
  EXPECT_EQ(format_quantity(0.015, "kg"), "15 g");
  EXPECT_EQ(format_quantity(2.5, "kg"), "2.5 kg");
  EXPECT_EQ(format_quantity(0, "kg"), "0 kg");
  EXPECT_EQ(format_quantity(0.28e-6, "m2"), "0.28 mm2");
  EXPECT_EQ(format_quantity(12e-6, "1/K"), "12 ppm/K");
  EXPECT_EQ(format_quantity(216000, "C"), "60 Ah");
  EXPECT_EQ(format_quantity(293.15, "K"), "20 degC");
  EXPECT_EQ(format_quantity(5, "delta_K"), "5 K");
  EXPECT_EQ(format_quantity(3.14159265358979323846 / 90, "rad"), "2 deg");
  EXPECT_EQ(format_quantity(90, "s"), "90 s");
  EXPECT_EQ(format_quantity(5400, "s"), "90 min");
  EXPECT_EQ(format_quantity(604800, "s"), "7 d");
  EXPECT_EQ(format_quantity(9000, "turn"), "9000 turns");
  EXPECT_EQ(format_quantity(15550, "turn"), "15550 turns");
  EXPECT_EQ(format_quantity(1, "tooth"), "1 tooth");
  EXPECT_EQ(format_quantity(0.123456, "1"), "0.1235");
  EXPECT_EQ(format_quantity(4.3, "s/day"), "4.3 s/day");
}

TEST(FormatTest, RoundingNeverShowsAThousandOfTheSmallerPrefix) {
  EXPECT_EQ(format_quantity(999.96, "V"), "1 kV");
  EXPECT_EQ(format_quantity(0.09999999, "V"), "0.1 V");
  EXPECT_EQ(format_quantity(0.99999, "kg"), "1 kg");
  EXPECT_EQ(format_quantity(999.94, "V"), "999.9 V");
}

TEST(FormatTest, ExactNumbersAreShort) {
  EXPECT_EQ(format_exact(0.1), "0.1");
  EXPECT_EQ(format_exact(24), "24");
  EXPECT_EQ(format_exact(1e-9), "1e-09");
  EXPECT_EQ(format_exact(-0.0), "-0");
}

TEST(FormatTest, WhatIsNoNumberIsShownAsSuch) {
  EXPECT_EQ(format_quantity(INFINITY, "V"), "inf V");
  EXPECT_EQ(format_quantity(-INFINITY, ""), "-inf ");
}

// A size between 10^-12 and 10^8, so that every prefix comes up.
double any_size() {
  double value = *rc::gen::inRange(-999'999'999, 999'999'999);
  for (int n = *rc::gen::inRange(0, 18); n > 0; --n) value /= 10;
  return value;
}

RC_GTEST_PROP(FormatTest, WhatIsFormattedIsReadBackToFourDigits, ()) {
  const std::string field = *rc::gen::elementOf(kFields);
  const double value = any_size();
  std::string error;
  const std::optional<double> back = parse_quantity(format_quantity(value, field), field, error);
  RC_LOG() << format_quantity(value, field) << " " << error;
  RC_ASSERT(back.has_value());
  const double size = field == "K" ? std::fabs(value) + 273.15 : std::fabs(value);
  RC_ASSERT(std::fabs(*back - value) <= 0.00051 * size);
}

RC_GTEST_PROP(FormatTest, ExactTextIsReadBackToTheBit, ()) {
  const double value = any_size() / 3;
  std::string error;
  RC_ASSERT(parse_quantity(format_exact(value), "", error) == value);
  RC_ASSERT(parse_quantity(format_exact(value) + " V", "V", error) == value);
}

RC_GTEST_PROP(QuantityTest, AnyMixtureOfPiecesGivesAFiniteNumberOrAReason, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
      "24", " ", "V", ".", "/", "-", "+", "e", "0", "m", "k", "ohm", "%", "^", "2", "1", "\xC2\xB0",
      "C", "@", "(", ")", "deg", "\xFF", "inf", "_", ",", "s", "\n", "K", "*"));
  std::string text;
  for (const std::string& piece : pieces) text += piece;
  const std::string field = *rc::gen::elementOf(kFields);
  Diagnostic mistake;
  const std::optional<double> value = parse_quantity(text, field, mistake);
  RC_ASSERT((value.has_value() ? std::isfinite(*value) : !mistake.what.empty()));
}

}  // namespace
}  // namespace sixty
