#include "tests/faults/undoings.hpp"

#include <algorithm>
#include <cstdlib>
#include <utility>

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

}  // namespace

Effect effect_of(const explain::Comparison& comparison, const explain::Link& told,
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

Undoings::Undoings(FaultyScene scene, Effect effect, SimTime end, const Installation& plain)
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

Undoings::Outcome Undoings::undo(explain::Link link) {
  link.part = there(link.part);
  Outcome outcome;
  outcome.changed =
      sixty::undo(link, scene_, faulty_, sound_, [&](const std::string& how, Session& run) {
        outcome.tried += (outcome.tried.empty() ? "" : "; ") + how;
        return is_other(look_at(run));
      });
  return outcome;
}

PartId Undoings::there(PartId p) const {
  return sound_.installation().find_id(plain_.parts[p].name).value();
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
