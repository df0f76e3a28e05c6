// What must hold in any network whatever: energy, order of declaring, cuts, reuse.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstring>

#include "sim/circuit/runtime.hpp"
#include "tests/circuit/random_bench.hpp"

namespace sixty::circuit {
namespace {

constexpr int kNetworks = 60;
constexpr RandomKinds kPlain = {};
constexpr RandomKinds kAll = {true, true, true, true};

void expect_balance(std::uint64_t seed, const RandomKinds& kinds) {
  Bench bench = random_bench(seed, kinds);
  const Energies start = bench.energies(bench.at(0));
  for (const double t : {0.02, 0.1, 0.21, 0.33, 0.5, 0.9}) {
    const Energies e = bench.energies(bench.at(t));
    const double whole = e.source + start.capacitors;
    EXPECT_NEAR(e.missing(start), 0, 0.001 * whole + 1e-9)
        << "network " << seed << " at " << t << " s";
  }
}

TEST(EnergyTest, SourceIsHeatAndFieldAndWorkInPlainNetworks) {
  for (int seed = 0; seed < kNetworks; ++seed) expect_balance(seed, kPlain);
}

TEST(EnergyTest, FrictionTakesWhatIsMissing) {
  for (int seed = 0; seed < kNetworks; ++seed) expect_balance(seed, {false, false, true, false});
}

TEST(EnergyTest, RemanenceLosesNoEnergyUnaccountedFor) {
  for (int seed = 0; seed < kNetworks; ++seed) expect_balance(seed, {false, false, false, true});
}

TEST(EnergyTest, SparksAndBounceLoseNoEnergyUnaccountedFor) {
  for (int seed = 0; seed < kNetworks; ++seed) expect_balance(seed, {true, true, false, false});
}

TEST(EnergyTest, AllAtOnceLosesNoEnergyUnaccountedFor) {
  for (int seed = 1000; seed < 1000 + kNetworks; ++seed) expect_balance(seed, kAll);
}

TEST(EnergyTest, LinesOfManyCoilsLoseNoEnergyUnaccountedFor) {
  for (int seed = 0; seed < 40; ++seed) {
    Bench bench = random_line(seed, seed % 2 == 0 ? 8 : 20);
    const Energies start = bench.energies(bench.at(0));
    for (const double t : {0.03, 0.2, 1.0, 3.0, 6.0}) {
      const Energies e = bench.energies(bench.at(t));
      EXPECT_NEAR(e.missing(start), 0, 0.001 * e.source + 1e-9) << "line " << seed << " at " << t;
    }
  }
}

/// All currents and gaps of the coils at a time.
std::vector<double> shape(Bench& bench, double t_s) {
  const Bench::Look look = bench.at(t_s);
  std::vector<double> values;
  for (int k = 0; k < 5; ++k) {
    const std::string coil = "coil" + std::to_string(k);
    if (static_cast<std::size_t>(k) >= bench.network().coils.size()) break;
    values.push_back(bench.value(look, coil + ".current"));
    values.push_back(1000 * bench.value(look, coil + ".gap"));
  }
  return values;
}

TEST(NetworkTest, OrderOfDeclaringDoesNotMatter) {
  for (std::uint64_t seed = 0; seed < kNetworks; ++seed) {
    Bench one = random_bench(seed, kPlain);
    Bench other = random_bench(seed, kPlain, 77 + seed);
    for (const double t : {0.03, 0.11, 0.2, 0.35, 0.6}) {
      const std::vector<double> a = shape(one, t);
      const std::vector<double> b = shape(other, t);
      ASSERT_EQ(a.size(), b.size());
      for (std::size_t k = 0; k < a.size(); ++k) {
        EXPECT_NEAR(a[k], b[k], 1e-4) << "network " << seed << " at " << t << " s";
      }
    }
  }
}

/// A state reached in one go, and one reached by stopping at `cut_s` and starting anew.
void expect_cut_is_no_event(std::uint64_t seed, double cut_s) {
  Bench bench = random_bench(seed, kPlain);
  const Bench::Look look = bench.at(0.4);
  Inputs inputs = initial_inputs(bench.network());
  for (std::size_t k = 0; k < inputs.contacts.size(); ++k) inputs.contacts[k].closed = 1;
  Integrator straight(bench.network(), inputs, look.state);
  Integrator first(bench.network(), inputs, look.state);
  first.advance(cut_s);
  Integrator second(bench.network(), inputs, first.state_at(cut_s));
  for (const double t : {0.012, 0.05, 0.2}) {
    straight.advance(t);
    second.advance(t - cut_s);
    const State a = straight.state_at(t);
    const State b = second.state_at(t - cut_s);
    for (std::size_t j = 0; j < a.coils.size(); ++j) {
      const double scale = bench.network().coils[j].magnet.inductance_h > 0
                               ? std::fabs(a.coils[j].linkage_wb) + 0.01
                               : bench.network().coils[j].magnet.turns *
                                     bench.network().coils[j].magnet.pole_area_m2;
      EXPECT_NEAR(a.coils[j].linkage_wb, b.coils[j].linkage_wb, 1e-4 * scale)
          << "network " << seed << " cut at " << cut_s << " s, at " << t << " s";
      EXPECT_NEAR(a.coils[j].gap_m, b.coils[j].gap_m, 2e-6)
          << "network " << seed << " cut at " << cut_s << " s, at " << t << " s";
    }
  }
}

TEST(NetworkTest, CuttingAnywhereAndGoingOnChangesNothing) {
  for (std::uint64_t seed = 0; seed < kNetworks; ++seed) {
    for (const double cut : {0.0003, 0.0021, 0.0047, 0.0101}) expect_cut_is_no_event(seed, cut);
  }
}

TEST(NetworkTest, TheSameStretchGivesTheSameBytes) {
  for (std::uint64_t seed = 0; seed < 20; ++seed) {
    Bench one = random_bench(seed, kAll);
    Bench two = random_bench(seed, kAll);
    const State a = one.at(0.37).state;
    const State b = two.at(0.37).state;
    EXPECT_TRUE(a.same(b)) << "network " << seed;
  }
}

/// Works the contacts of a network over and over as a running world would; returns a trail of
/// bytes.
struct Trail {
  std::vector<std::uint64_t> hashes;
  std::vector<SimTime> times;
  std::size_t computed = 0;
};

void run_on(NetworkData& data, SimTime until, EventId& id, Memo& memo, Trail& trail) {
  while (data.next_at <= until) {
    const SimTime at = data.next_at;
    Happening happening;
    if (!take(data, id + 1, memo, happening)) continue;
    ++id;
    trail.times.push_back(at);
    trail.hashes.push_back(happening.cause);
  }
}

Trail work_often(std::uint64_t seed, bool reuse) {
  const Bench bench = random_bench(seed, kAll);
  Memo memo(reuse);
  Trail trail;
  EventId id = 0;
  auto network = std::make_shared<const Network>(bench.network());
  NetworkData data = begin_network(network, 0, memo);
  for (int round = 0; round < 24; ++round) {
    const SimTime at = round * (round % 3 == 0 ? 2 * kSecond : 40 * kMillisecond) + kSecond;
    run_on(data, at, id, memo, trail);
    for (std::size_t k = 0; k < data.inputs.contacts.size(); ++k) {
      ContactInput c = data.inputs.contacts[k];
      c.closed ^= 1;
      set_contact(data, k, c);
    }
    recut(data, at, ++id, memo);
    trail.hashes.push_back(state_hash(data));
  }
  trail.computed = memo.computed();
  return trail;
}

TEST(MemoTest, ReuseGivesTheSameBytes) {
  for (std::uint64_t seed = 0; seed < 20; ++seed) {
    const Trail with = work_often(seed, true);
    const Trail without = work_often(seed, false);
    EXPECT_EQ(with.hashes, without.hashes) << "network " << seed;
    EXPECT_EQ(with.times, without.times) << "network " << seed;
    EXPECT_LE(with.computed, without.computed);
  }
}

}  // namespace
}  // namespace sixty::circuit
