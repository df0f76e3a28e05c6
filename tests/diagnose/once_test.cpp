// What hands try at a part to see whether all goes right then.
#include "sim/diagnose/once.hpp"

#include <gtest/gtest.h>

#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

/// What share goes right once a sign's deed has been done, with a fault at some severity.
double right_once(const std::string& fault, const std::string& part, const std::string& sign,
                  double severity = 1) {
  const BenchLibrary& bench = BenchLibrary::get();
  const auto departures = bench.departures_with(fault, part, {severity, 0, {}});
  const std::size_t k = bench.observed("at: " + part + ", sign: " + sign).which.front();
  return static_cast<double>(departures[k]) * bench.library().signs[k].sign->notice;
}

TEST(Once, AFilmGoesByWipingAndByALeadAcrossTheContact) {
  EXPECT_GT(right_once("F13", "arm_b", "right_once_wiped"), 0.9);
  EXPECT_GT(right_once("F13", "arm_b", "right_once_bridged"), 0.9);
}

TEST(Once, ABladeWithoutForceIsWipedInVain) {
  EXPECT_LT(right_once("F14", "arm_b", "right_once_wiped"), 0.1);
  EXPECT_GT(right_once("F14", "arm_b", "right_once_bridged"), 0.7);
}

TEST(Once, AStiffClockTakesItsFaultWithIt) {
  EXPECT_GT(right_once("F62", "hall_clock", "right_once_swapped"), 0.9);
}

TEST(Once, WhereNothingGoesWrongNothingGoesRight) {
  EXPECT_EQ(right_once("F13", "arm_b", "right_once_wiped", 0.01), 0);
}

TEST(Once, OnlyTheFaultyPartIsCured) {
  const BenchLibrary& bench = BenchLibrary::get();
  const Library& library = bench.library();
  const auto departures = bench.departures_with("F13", "arm_b", {1, 0, {}});
  for (std::size_t k = 0; k < library.signs.size(); ++k) {
    const SignAt& at = library.signs[k];
    if (at.sign->source.what != SignSource::What::kOnce) continue;
    if (library.installation->parts[at.part].name != "arm_b") {
      EXPECT_EQ(departures[k], 0) << at.sign->name;
    }
  }
}

TEST(Once, TheNextRunIsAsIfNothingHadBeenTried) {
  const BenchLibrary& bench = BenchLibrary::get();
  const Library& library = bench.with_specimens();
  Bench used(library, library.specimens.front()), fresh(library, bench.unused_specimen());
  used.departures_with(library.suspects[bench.suspect("F13", "arm_b")], {1, 0, {}});
  const Suspect& next = library.suspects[bench.suspect("F07", "rewind")];
  EXPECT_EQ(used.departures_with(next, {1, 0, {}}), fresh.departures_with(next, {1, 0, {}}));
  EXPECT_EQ(used.work(), fresh.work());
}

TEST(OnceSigns, WithAnUnknownCommandAreRefusedWithTheirPlace) {
  const BenchLibrary& bench = BenchLibrary::get();
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const auto root =
      parse_yaml("signs: relay\nentries: [{sign: a, says: b, once: moon, notice: 0.4, check: T16}]",
                 "test", diagnostics);
  ASSERT_TRUE(root);
  read_signs(*root, "test", *bench.registry().find("relay"), mistakes);
  EXPECT_NE(diagnostics.to_text().find("swapped"), std::string::npos) << diagnostics.to_text();
}

}  // namespace
}  // namespace sixty::diagnose
