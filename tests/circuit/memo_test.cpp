// What has been met is found again, and nothing else in its place.
#include <gtest/gtest.h>

#include <memory>
#include <vector>

#include "sim/circuit/memo.hpp"

namespace sixty::circuit {
namespace {

std::shared_ptr<const Network> loaded(double emf_v) {
  Network network;
  network.node_count = 2;
  network.sources.push_back({1, 0, emf_v, 0.3, -1});
  network.resistors.push_back({1, 0, 10});
  return std::make_shared<const Network>(network);
}

// A source that runs down is a new network at each step, and each has its own transients.
TEST(MemoTest, ManyNetworksAndStatesAreNeverMistakenForEachOther) {
  Memo memo(true);
  std::vector<std::shared_ptr<const Network>> networks;
  std::vector<std::shared_ptr<const State>> starts;
  for (int k = 0; k < 150; ++k) networks.push_back(memo.intern(loaded(24 - k * 0.02)));
  for (int k = 0; k < 150; ++k) {
    starts.push_back(std::make_shared<const State>(rest_state(*networks.front())));
  }
  std::size_t mistaken = 0;
  for (const auto& network : networks) {
    for (const auto& start : starts) {
      const auto stretch = memo.meet(network, initial_inputs(*network), 0, start).stretch;
      if (stretch->network != network || stretch->start != start) ++mistaken;
    }
  }
  EXPECT_EQ(mistaken, 0U);
}

}  // namespace
}  // namespace sixty::circuit
