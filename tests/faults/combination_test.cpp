// Any few faults together, put in and cleared at any moment: the run goes on, is the same when it
// is come back to, and a meter may lie on anything the while.
#include <gtest/gtest.h>

#include <optional>

#include "sim/base/rng.hpp"
#include "sim/scene/fault.hpp"
#include "sim/scene/hookup.hpp"
#include "sim/scene/injection.hpp"
#include "sim/scene/loader.hpp"
#include "tests/faults/bench_feed.hpp"
#include "tests/faults/observed_run.hpp"

namespace sixty {
namespace {

constexpr SimTime kEnd = 20 * kMinute;

std::shared_ptr<const Installation> with(const std::string& scene,
                                         const std::vector<std::string>& faults) {
  Diagnostics refused;
  SceneChanges changes;
  changes.fault = faults;
  return load_scene(std::string(SIXTY_SOURCE_DIR) + "/scenes/" + scene + ".yaml", all_parts(),
                    changes, refused);
}

/// "ID@PART" of all that can strike a scene.
std::vector<std::string> all_that_fits(const Installation& scene) {
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const FaultBook book(all_parts(), mistakes);
  std::vector<std::string> all;
  for (const auto& fault : book.all()) {
    for (const PartInstance& part : scene.parts) {
      if (part.kind == fault->kind && fits(*fault, part))
        all.push_back(fault->name + "@" + part.name);
    }
  }
  return all;
}

/// Chance that is the same each time.
class Dice {
 public:
  explicit Dice(std::uint64_t seed) : seed_(seed) {}
  std::int64_t below(std::int64_t most) {
    return static_cast<std::int64_t>(uniform_draw(seed_, 0, 0, drawn_++) *
                                     static_cast<double>(most));
  }
  template <class T>
  const T& one_of(const std::vector<T>& all) {
    return all[static_cast<std::size_t>(below(static_cast<std::int64_t>(all.size())))];
  }

 private:
  std::uint64_t seed_, drawn_ = 0;
};

std::string with_times(const std::string& fault, Dice& dice) {
  const std::int64_t severity = 1 + dice.below(20);
  const std::int64_t from = dice.below(900);
  return fault + ":" + std::to_string(static_cast<double>(severity) * 0.05) +
         ",from=" + std::to_string(from) + "s,until=" + std::to_string(from + 1 + dice.below(900)) +
         "s";
}

std::optional<Action> any_meter(const Installation& scene, Dice& dice) {
  const auto part = static_cast<PartId>(dice.below(static_cast<std::int64_t>(scene.parts.size())));
  const auto& nodes = scene.parts[part].nodes;
  if (nodes.empty()) return std::nullopt;
  Hookup hookup{{part, nodes.begin()->first}, {part, nodes.rbegin()->first}};
  hookup.in_series = dice.below(2) == 0;
  hookup.resistance_ohm = dice.one_of<double>({1e-3, 5.0, 1e6, 1e12});
  return lay(hookup, dice.below(1000) * kSecond + dice.below(kSecond));
}

class CombinationTest : public testing::TestWithParam<std::uint64_t> {};

TEST_P(CombinationTest, RunsOnAndCanBeComeBackTo) {
  Dice dice(GetParam());
  const std::string name = dice.below(2) == 0 ? "bench-minimal" : "corner-school";
  const std::vector<std::string> fitting = all_that_fits(*with(name, {}));
  std::vector<std::string> faults;
  for (std::int64_t k = 1 + dice.below(4); k > 0; --k)
    faults.push_back(with_times(dice.one_of(fitting), dice));
  SCOPED_TRACE(name + " " + testing::PrintToString(faults));
  const auto scene = with(name, faults);
  if (scene == nullptr) return;  // a severity that the part refuses
  Session straight(scene), sought(scene);
  if (const std::optional<Action> meter = any_meter(*scene, dice)) {
    ASSERT_TRUE(straight.act(*meter));
    ASSERT_TRUE(sought.act(*meter));
  }
  straight.run_until(kEnd);
  sought.run_until(kEnd);
  sought.seek(dice.below(kEnd / kSecond) * kSecond);
  sought.run_until(kEnd);
  EXPECT_EQ(straight.state_hash(), sought.state_hash());
}

INSTANTIATE_TEST_SUITE_P(OfFaultsAndAMeter, CombinationTest, testing::Range<std::uint64_t>(0, 40));

}  // namespace
}  // namespace sixty
