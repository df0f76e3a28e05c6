#include "sim/base/rng.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

namespace sixty {
namespace {

// Known answers for Philox4x32-10, distributed with the paper's own sources (Salmon et al. 2011);
// published, from memory.
TEST(RngTest, PhiloxGivesItsPublishedAnswers) {
  EXPECT_EQ(philox({0, 0, 0, 0}, {0, 0}),
            (std::array<std::uint32_t, 4>{0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}));
  constexpr std::uint32_t f = 0xffffffff;
  EXPECT_EQ(philox({f, f, f, f}, {f, f}),
            (std::array<std::uint32_t, 4>{0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}));
  EXPECT_EQ(philox({0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344}, {0xa4093822, 0x299f31d0}),
            (std::array<std::uint32_t, 4>{0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}));
}

TEST(RngTest, DrawsDependOnAllFourKeys) {
  std::set<double> seen;
  for (std::uint64_t seed = 0; seed < 3; ++seed) {
    for (std::uint64_t who = 0; who < 3; ++who) {
      for (std::uint32_t stream = 0; stream < 3; ++stream) {
        for (std::uint64_t n = 0; n < 3; ++n) seen.insert(uniform_draw(seed, who, stream, n));
      }
    }
  }
  EXPECT_EQ(seen.size(), 81u);
}

TEST(RngTest, DrawsAreUniform) {
  constexpr int kDraws = 100'000;
  double sum = 0;
  double squares = 0;
  for (int n = 0; n < kDraws; ++n) {
    const double u = uniform_draw(7, 11, 0, static_cast<std::uint64_t>(n));
    ASSERT_GE(u, 0);
    ASSERT_LT(u, 1);
    sum += u;
    squares += u * u;
  }
  EXPECT_NEAR(sum / kDraws, 0.5, 0.004);  // four standard errors
  EXPECT_NEAR(squares / kDraws, 1.0 / 3, 0.004);
}

}  // namespace
}  // namespace sixty
