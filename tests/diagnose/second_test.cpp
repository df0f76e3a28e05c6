// The second at which a clock has stopped is read off its dial, whole minutes left out.
#include <gtest/gtest.h>

#include "sim/diagnose/likelihood.hpp"
#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

/// How likely it is that the seconds hand is read so, where the pendulum was stopped at 36 s.
double chance_of_second(int second) {
  const BenchLibrary& bench = BenchLibrary::get();
  const Library& library = bench.with_specimens();
  static const std::vector<float> shown = [&] {
    Bench one(library, library.specimens.front());
    Manner manner;
    manner.from = 10 * kHour + 17 * kMinute + 36 * kSecond;
    manner.severity = 1;
    return one.departures_with(library.suspects[bench.suspect("F49", "movement")], manner);
  }();
  const Observation told =
      bench.observed("at: movement, sign: stands_at, reads: " + std::to_string(second));
  return chance_of(told, shown, library.usual, library.signs, {});
}

TEST(SecondAtWhichItStopped, IsTheOneThatTheDialShows) {
  EXPECT_GT(chance_of_second(36), 0.5);
  for (const int other : {0, 6, 15, 27, 45, 55}) EXPECT_LT(chance_of_second(other), 0.1) << other;
}

TEST(SecondAtWhichItStopped, IsTheSameAFullTurnOn) {
  EXPECT_NEAR(chance_of_second(36), chance_of_second(96), 0.3);
}

}  // namespace
}  // namespace sixty::diagnose
