#include "tests/faults/undoings.hpp"

#include <algorithm>
#include <cstdlib>

#include "sim/base/clock_time.hpp"
#include "tests/faults/observed_run.hpp"

namespace sixty {
namespace {

/// Writes down when a deed was done.
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

Effect effect_of(const Held& held) {
  if (held.comparison.first) {
    const explain::Deed& deed = held.comparison.first->deed;
    return {deed.part, deed.kind, deed.acted, 0, deed.at, 0};
  }
  const explain::Link& told = held.chain.front();
  const auto& readings = held.faulty->parts[told.part].kind->declaration.readings;
  std::size_t reading = 0;
  while (readings[reading].name != told.quantity) ++reading;
  return {told.part, "", true, reading, told.at, told.expected};
}

}  // namespace

Held held_against_sound(const FaultyScene& scene, const std::string& span) {
  Held held;
  held.scene = scene;
  held.faulty = scene_with(scene.name, {scene.fault}, scene.set, scene.hands);
  Session looked_at(held.faulty), sound(scene_with(scene.name, {}, scene.set, scene.hands));
  Diagnostic mistake;
  held.end = parse_duration(span, mistake).value();
  held.comparison = explain::compare(looked_at, sound, held.end, true);
  if (held.comparison.first || !held.comparison.readings.empty())
    held.chain = explain::chain_of(looked_at, sound, held.comparison);
  return held;
}

Undoings::Undoings(const Held& held)
    : held_(held),
      faulty_(on_the_bench(held.scene)),
      sound_(on_the_bench({held.scene.name, "", held.scene.set, held.scene.hands})),
      effect_(effect_of(held)) {
  effect_.part = there(effect_.part);
  end_ = effect_.deed.empty() ? effect_.at : std::min(held.end, effect_.at + kMinute);
  Session run(faulty_);
  as_it_was_ = look_at(run);
}

Undoings::Outcome Undoings::undo(explain::Link link) {
  link.part = there(link.part);
  Outcome outcome;
  outcome.changed =
      sixty::undo(link, held_.scene, faulty_, sound_, [&](const std::string& how, Session& run) {
        outcome.tried += (outcome.tried.empty() ? "" : "; ") + how;
        return is_other(look_at(run));
      });
  return outcome;
}

PartId Undoings::there(PartId p) const {
  return sound_.installation().find_id(held_.faulty->parts[p].name).value();
}

Undoings::Seen Undoings::look_at(Session& run) const {
  Seen seen;
  Watch watch(effect_, seen.times);
  run.set_sink(&watch);
  run.run_until(end_);
  run.set_sink(nullptr);
  if (effect_.deed.empty()) seen.reading = run.read(effect_.part, effect_.reading);
  return seen;
}

bool Undoings::is_other(const Seen& now) const {
  if (effect_.deed.empty())
    return (now.reading - as_it_was_.reading) / (effect_.healthy - as_it_was_.reading) > 0.5;
  const auto same = [](SimTime a, SimTime b) { return std::abs(a - b) < explain::kSame; };
  return !std::equal(now.times.begin(), now.times.end(), as_it_was_.times.begin(),
                     as_it_was_.times.end(), same);
}

}  // namespace sixty
