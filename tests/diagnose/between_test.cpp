// Runs that are taken to lie between two others.
#include <gtest/gtest.h>

#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

TEST(Between, RunsLieBetweenTheirNeighbours) {
  const Library& library = BenchLibrary::get().library();
  std::size_t met = 0;
  for (std::size_t s = 0; s < library.suspects.size(); ++s) {
    std::vector<const diagnose::Run*> steady;
    std::vector<const diagnose::Run*> made;
    for (const diagnose::Run& one : library.runs) {
      if (one.suspect == s && one.steady) steady.push_back(&one);
      if (one.suspect == s && one.between) made.push_back(&one);
    }
    for (const diagnose::Run* one : made) {
      ++met;
      for (std::size_t k = 0; k < library.usual.size(); ++k) {
        float least = 1e9F, most = -1e9F;
        for (const diagnose::Run* run : steady) {
          least = std::min(least, run->departures[k]);
          most = std::max(most, run->departures[k]);
        }
        ASSERT_GE(one->departures[k], least - 1e-3F * std::fabs(least) - 1e-4F);
        ASSERT_LE(one->departures[k], most + 1e-3F * std::fabs(most) + 1e-4F);
      }
    }
  }
  EXPECT_GT(met, 100u);
}

TEST(Between, FaultsWithoutDegreesHaveNone) {
  const Library& library = BenchLibrary::get().library();
  for (const diagnose::Run& one : library.runs) {
    if (one.between) {
      EXPECT_TRUE(has_degrees(*library.suspects[one.suspect].fault));
    }
  }
}

}  // namespace
}  // namespace sixty::diagnose
