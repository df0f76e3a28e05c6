// What has been met is found again, and nothing else in its place.
#include <gtest/gtest.h>

#include <atomic>
#include <future>
#include <memory>
#include <stdexcept>
#include <thread>
#include <vector>

#include "sim/circuit/runtime.hpp"

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
      const auto stretch = memo.meet(network, initial_inputs(*network), start).stretch;
      if (stretch->network != network || stretch->start != start) ++mistaken;
    }
  }
  EXPECT_EQ(mistaken, 0U);
}

/// A lamp behind a key, and another behind a key that lies open.
std::shared_ptr<const Network> two_ways(double first_ohm, double second_ohm) {
  Network network;
  network.node_count = 4;
  network.sources.push_back({1, 0, 24, 0.3, -1});
  network.resistors = {{2, 0, first_ohm}, {3, 0, second_ohm}};
  for (const Node behind : {2, 3}) {
    Contact key;
    key.a = 1;
    key.b = behind;
    network.contacts.push_back(key);
  }
  network.contacts[0].closed = true;
  return std::make_shared<const Network>(network);
}

TEST(MemoTest, AStretchIsFoundAgainInANetworkThatDiffersWhereItLiesIdle) {
  Memo memo;
  begin_network(two_ways(10, 10), 0, memo);
  const std::size_t computed = memo.computed();
  EXPECT_GT(computed, 0u);
  begin_network(two_ways(10, 20), 0, memo);
  EXPECT_EQ(memo.computed(), computed);
  begin_network(two_ways(20, 10), 0, memo);
  EXPECT_GT(memo.computed(), computed);
}

// From one place in one stretch it goes on as the inputs say, however often it was left there.
TEST(MemoTest, OneCutGoesOnOtherwiseUnderOtherInputs) {
  Network network;
  network.node_count = 3;
  network.sources.push_back({1, 0, 24, 0.3, -1});
  network.resistors.push_back({2, 0, 10});
  for (int k = 0; k < 2; ++k) {
    Contact key;
    key.a = 1;
    key.b = 2;
    key.closed_ohm = 0.1;
    network.contacts.push_back(key);
  }
  const auto shared = std::make_shared<const Network>(network);
  Memo memo;
  const NetworkData begun = begin_network(shared, 0, memo);
  const auto current_after = [&](std::size_t key, double ohm) {
    NetworkData data = begun;
    ContactInput closed = data.inputs.contacts[key];
    closed.closed = 1;
    closed.closed_ohm = ohm;
    set_contact(data, key, closed);
    recut(data, kSecond, 1, memo);
    EXPECT_EQ(data.inputs.contacts[key].closed, 1U);
    EXPECT_EQ(data.met.stretch->inputs.contacts[key].closed, 1U);
    return data.met.stretch->steady_a.at(0);
  };
  for (int again = 0; again < 2; ++again) {
    EXPECT_NEAR(current_after(0, 0.1), 24 / 10.4, 1e-9);
    EXPECT_NEAR(current_after(1, 0.1), 24 / 10.4, 1e-9);
    EXPECT_NEAR(current_after(1, 2), 24 / 12.3, 1e-9);
  }
}

TEST(PoolTest, WhatOneMemoHasComputedAnotherNeedNot) {
  const auto pool = std::make_shared<Pool>();
  Memo one(true, pool), other(true, pool);
  const NetworkData ours = begin_network(two_ways(10, 10), 0, one);
  const NetworkData theirs = begin_network(two_ways(10, 20), 0, other);  // other where it lies idle
  EXPECT_GT(one.computed(), 0u);
  EXPECT_EQ(other.computed(), 0u);
  EXPECT_EQ(ours.met.stretch->steady_a, theirs.met.stretch->steady_a);
  begin_network(two_ways(20, 10), 0, other);
  EXPECT_GT(other.computed(), 0u);
}

// Nobody may take another film for the one that its own contact has.
TEST(PoolTest, AStretchThatHasReadAnotherFilmIsNotTaken) {
  const auto network = two_ways(10, 10);
  const auto pool = std::make_shared<Pool>();
  Memo one(true, pool), other(true, pool);
  const auto current_with_film = [&](double ohm, Memo& memo) {
    NetworkData data = begin_network(network, 0, memo);
    ContactInput closed = data.inputs.contacts[1];
    closed.closed = 1;
    closed.closed_ohm = ohm;
    set_contact(data, 1, closed);
    recut(data, kSecond, 1, memo);
    return data.met.stretch->steady_a.at(0);
  };
  Memo alone;
  EXPECT_EQ(current_with_film(0.1, one), current_with_film(0.1, alone));
  EXPECT_EQ(current_with_film(5, other), current_with_film(5, alone));
  EXPECT_LT(current_with_film(5, other), current_with_film(0.1, other) - 0.1);
}

TEST(PoolTest, TwoThreadsThatAskForOneStretchComputeItOnce) {
  const auto network = two_ways(10, 10);
  const State start = rest_state(*network);
  const Inputs inputs = initial_inputs(*network);
  Pool pool;
  std::atomic<int> computed = 0, begun = 0;
  const auto ask = [&] {
    ++begun;
    const auto made = pool.find(
        {*network, start, inputs},
        [&] {
          while (begun < 2) std::this_thread::yield();  // the other asks in the meantime
          ++computed;
          return compute_stretch(network, inputs, std::make_shared<const State>(start),
                                 std::make_shared<Responses>(*network));
        },
        [] { return false; });
    return made.get();
  };
  auto other = std::async(std::launch::async, ask);
  const Stretch* const ours = ask();
  EXPECT_EQ(ours, other.get());
  EXPECT_EQ(computed, 1);
}

TEST(PoolTest, WhereComputingFailsTheNextOneTriesAgain) {
  const auto network = two_ways(10, 10);
  const State start = rest_state(*network);
  const Inputs inputs = initial_inputs(*network);
  Pool pool;
  const auto fails = []() -> std::shared_ptr<const Stretch> { throw std::runtime_error("no"); };
  EXPECT_THROW(pool.find_if_free({*network, start, inputs}, fails), std::runtime_error);
  EXPECT_THROW(pool.find_if_free({*network, start, inputs}, fails), std::runtime_error);
}

// Somebody who watches a run comes at ever other instants of it: hours of that must leave nothing.
TEST(MemoTest, LookingAtARunKeepsNothingButTheLatestLooks) {
  Network network;
  network.node_count = 3;
  network.sources.push_back({1, 0, 24, 0.3, -1});
  Contact key;
  key.a = 1;
  key.b = 2;
  network.contacts.push_back(key);
  Coil coil;
  coil.a = 2;
  coil.b = 0;
  coil.resistance_ohm = 120;
  coil.magnet.turns = 4600;
  coil.magnet.pole_area_m2 = 1e-4;
  coil.magnet.residual_gap_m = 0.45e-3;
  coil.armature = {true, 2e-3, 0, 0.04, 1.55, 400};
  network.coils.push_back(coil);
  Memo memo, fresh(false);
  NetworkData data = begin_network(std::make_shared<const Network>(network), 0, memo);
  ContactInput closed = data.inputs.contacts[0];
  closed.closed = 1;
  set_contact(data, 0, closed);
  recut(data, kSecond, 1, memo);
  constexpr SimTime kLooks = 500;
  ASSERT_GT(data.met.stretch->end_ns, kLooks * kMicrosecond);  // the relay is still pulling in
  const Memo::Kept before = memo.kept();
  for (SimTime k = 1; k <= kLooks; ++k) {
    const SimTime at = kSecond + k * kMicrosecond;
    EXPECT_EQ(ledger_at(data, at, memo).charge_as, ledger_at(data, at, fresh).charge_as) << k;
  }
  Memo::Kept after = memo.kept();
  EXPECT_GT(after.looks, 0U);
  EXPECT_LE(after.looks, Memo::kMostLooks);
  after.looks = before.looks;
  EXPECT_EQ(after, before);
}

}  // namespace
}  // namespace sixty::circuit
