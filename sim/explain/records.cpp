#include "sim/explain/records.hpp"

#include <algorithm>
#include <cstdlib>
#include <future>

namespace sixty::explain {
namespace {

class Keeper final : public TraceSink {
 public:
  explicit Keeper(SimTime from) : from_(from) {}
  void record(const TraceRecord& r) override {
    if (r.event.at < from_) return;
    Kept k;
    k.event = r.event;
    k.part = r.part;
    k.kind = std::string(r.kind);
    k.acted = r.acted;
    k.located = r.located != nullptr;
    if (k.located) k.happening = *r.located;
    for (const Condition& c : r.conditions)
      k.conditions.push_back({std::string(c.what), c.measured, c.needed, c.met});
    kept.push_back(std::move(k));
  }
  std::vector<Kept> kept;

 private:
  SimTime from_;
};

}  // namespace

std::vector<Kept> records_of(Session& session, SimTime from, SimTime to) {
  Keeper keeper(from);
  session.seek(from - 1);  // what happens at `from` has not happened yet, at the start neither
  session.set_sink(&keeper);
  session.run_until(to);
  session.set_sink(nullptr);
  return std::move(keeper.kept);
}

BothRecords::BothRecords(Session& looked_at, Session& twin, SimTime from, SimTime to) {
  auto other = std::async(std::launch::async, [&] { return records_of(twin, from, to); });
  ours = records_of(looked_at, from, to);
  sound = other.get();
}

const Kept* nearest(const std::vector<Kept>& records, PartId part, std::uint16_t kind, SimTime at,
                    SimTime within, bool acted) {
  const Kept* best = nullptr;
  for (const Kept& k : records) {
    if (k.part != part || k.event.kind != kind || k.acted != acted) continue;
    const SimTime apart = std::abs(k.event.at - at);
    if (apart > within || (best != nullptr && apart >= std::abs(best->event.at - at))) continue;
    best = &k;
  }
  return best;
}

const Kept* last_made(const std::vector<Kept>& records, PartId part, SimTime at) {
  const auto found = std::find_if(records.rbegin(), records.rend(), [&](const Kept& k) {
    return k.part == part && k.located && k.happening.what == circuit::What::kMakes &&
           k.event.at <= at;
  });
  return found == records.rend() ? nullptr : &*found;
}

std::optional<PartId> part_named_by(const std::string& condition, const Installation& scene) {
  const PartInstance* part = scene.find(condition.substr(0, condition.find(" contact ")));
  if (part == nullptr) return std::nullopt;
  return static_cast<PartId>(part - scene.parts.data());
}

const Kept* by_id(const std::vector<Kept>& records, EventId id) {
  const auto found = std::find_if(records.begin(), records.end(),
                                  [id](const Kept& k) { return k.event.id == id; });
  return found == records.end() ? nullptr : &*found;
}

}  // namespace sixty::explain
