// A scene with a fault is held against a sound one: the chain behind the first deed that differs
// or, where all is done alike, behind the first reading, ends at the part that has the fault, at
// one of the values that the fault changes or at what a hand did there. Whoever finds it sees
// traces, states and values only.
#include <gtest/gtest.h>

#include "sim/base/clock_time.hpp"
#include "sim/explain/chain.hpp"
#include "sim/scene/injection.hpp"
#include "tests/faults/observed_run.hpp"
#include "tests/faults/school_faults.hpp"
#include "tests/faults/symptoms.hpp"
#include "tests/faults/undoing.hpp"

namespace sixty {
namespace {

using explain::Link;

/// What a chain ends at: the first deed that differs or, without one, a reading at an instant.
struct Effect {
  PartId part = 0;
  std::string_view deed;
  bool acted = true;
  std::size_t reading = 0;
  SimTime at = 0;
  double healthy = 0;
};

Effect effect_of(const explain::Comparison& comparison, const Link& told,
                 const Installation& scene) {
  if (comparison.first) {
    const explain::Deed& deed = comparison.first->deed;
    return {deed.part, deed.kind, deed.acted, 0, deed.at, 0};
  }
  const auto& readings = scene.parts[told.part].kind->declaration.readings;
  std::size_t reading = 0;
  while (readings[reading].name != told.quantity) ++reading;
  return {told.part, "", true, reading, told.at, told.expected};
}

/// With what a link tells undone in a second run, the effect is another: links tell causes, and not
/// what merely goes along.
class Undoings {
 public:
  Undoings(FaultyScene scene, Effect effect, SimTime end, const Installation& plain)
      : scene_(std::move(scene)),
        faulty_(on_the_bench(scene_)),
        sound_(on_the_bench({scene_.name, "", scene_.set, scene_.hands})),
        plain_(plain),
        effect_(effect) {
    effect_.part = there(effect.part);
    end_ = effect_.deed.empty() ? effect_.at : std::min(end, effect_.at + kMinute);
    Session run(faulty_);
    as_it_was_ = look_at(run);
  }

  void expect_change(Link link) {
    link.part = there(link.part);
    std::string tried;
    const bool undone =
        undo(link, scene_, faulty_, sound_, [&](const std::string& how, Session& run) {
          tried += how + "; ";
          return is_other(look_at(run));
        });
    EXPECT_TRUE(undone) << link.text << "\n  undone by: " << tried;
  }

 private:
  /// When the deed was done, and what is read at the end.
  struct Seen {
    std::vector<SimTime> times;
    double reading = 0;
  };

  class Watch final : public TraceSink {
   public:
    Watch(const Effect& effect, std::vector<SimTime>& times) : effect_(effect), times_(times) {}
    void record(const TraceRecord& r) override {
      if (r.part != effect_.part || r.kind != effect_.deed || r.acted != effect_.acted) return;
      if (times_.empty() || r.event.at - last_ > explain::kSame) times_.push_back(r.event.at);
      last_ = r.event.at;
    }
    bool full() const override { return false; }

   private:
    const Effect& effect_;
    std::vector<SimTime>& times_;
    SimTime last_ = 0;
  };

  PartId there(PartId p) const {
    return sound_.installation().find_id(plain_.parts[p].name).value();
  }

  Seen look_at(Session& run) const {
    Seen seen;
    Watch watch(effect_, seen.times);
    run.set_sink(&watch);
    run.run_until(end_);
    run.set_sink(nullptr);
    if (effect_.deed.empty()) seen.reading = run.read(effect_.part, effect_.reading);
    return seen;
  }

  bool is_other(const Seen& now) const {
    if (effect_.deed.empty())
      return (now.reading - as_it_was_.reading) / (effect_.healthy - as_it_was_.reading) > 0.5;
    const auto same = [](SimTime a, SimTime b) { return std::abs(a - b) < explain::kSame; };
    return !std::equal(now.times.begin(), now.times.end(), as_it_was_.times.begin(),
                       as_it_was_.times.end(), same);
  }

  FaultyScene scene_;
  std::shared_ptr<const Installation> faulty_;
  Session sound_;
  const Installation& plain_;
  Effect effect_;
  SimTime end_ = 0;
  Seen as_it_was_;
};

void expect_root_is_the_faulty_part(const Symptom& s, const std::vector<std::string>& hands = {}) {
  const std::vector<std::string> set = split(s.set, ';');
  const auto faulty = scene_with(s.scene, {s.fault}, set, hands);
  Session looked_at(faulty), sound(scene_with(s.scene, {}, set, hands));
  Diagnostic mistake;
  const SimTime end = parse_duration(s.span, mistake).value();
  const explain::Comparison comparison = explain::compare(looked_at, sound, end, true);
  ASSERT_TRUE(comparison.first || !comparison.readings.empty()) << "no difference";
  const std::vector<Link> chain = explain::chain_of(looked_at, sound, comparison);
  std::string text;
  for (const Link& link : chain) text += link.text + "\n";
  const Fault* fault = nullptr;
  PartId part = 0;
  for (const Action& action : faulty->script) {
    if (action.fault == nullptr) continue;
    fault = action.fault->fault.get();
    part = action.part;
  }
  ASSERT_NE(fault, nullptr);
  ASSERT_FALSE(chain.empty());
  EXPECT_LE(chain.size(), 5u);
  EXPECT_EQ(faulty->parts[chain.back().part].name, faulty->parts[part].name) << text;
  Undoings undoings({s.scene, s.fault, set, hands}, effect_of(comparison, chain.front(), *faulty),
                    end, *faulty);
  for (std::size_t k = 1; k < chain.size(); ++k) undoings.expect_change(chain[k]);
  if (chain.back().what == Link::What::kHand) {
    EXPECT_FALSE(fault->acts.empty()) << text;
    return;
  }
  EXPECT_EQ(chain.back().what, Link::What::kValue) << text;
  bool is_changed = false;
  for (const FaultChange& c : fault->changes)
    is_changed =
        is_changed || fault->kind->declaration.params[c.param].name == chain.back().quantity;
  EXPECT_TRUE(is_changed) << text;
}

class RootTest : public testing::TestWithParam<Symptom> {};

TEST_P(RootTest, IsTheFaultyPart) { expect_root_is_the_faulty_part(GetParam()); }

class SchoolRootTest : public testing::TestWithParam<SchoolFault> {};

TEST_P(SchoolRootTest, IsTheFaultyPart) {
  const SchoolFault& f = GetParam();
  expect_root_is_the_faulty_part({f.fault, "technical-school", f.span, ""}, split(f.hand, ';'));
}

std::string test_name(std::size_t row, const char* fault) {
  std::string name = std::to_string(row) + "_" + fault;
  for (char& c : name) {
    if (std::isalnum(static_cast<unsigned char>(c)) == 0) c = '_';
  }
  return name;
}

INSTANTIATE_TEST_SUITE_P(Faults, RootTest, testing::ValuesIn(kSymptoms),
                         [](const auto& test) { return test_name(test.index, test.param.fault); });
INSTANTIATE_TEST_SUITE_P(Faults, SchoolRootTest, testing::ValuesIn(kSchoolFaults),
                         [](const auto& test) { return test_name(test.index, test.param.fault); });

}  // namespace
}  // namespace sixty
