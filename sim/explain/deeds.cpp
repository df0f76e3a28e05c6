#include "sim/explain/deeds.hpp"

#include <algorithm>

namespace sixty::explain {
namespace {

constexpr SimTime kOneDeed = 300 * kMillisecond;  // what strikes does so several times a second

bool is_command(std::uint16_t kind) { return kind >= kCommandBase && kind < kLinkChangedBase; }

bool continues(const Deed& deed, const TraceRecord& record) {
  return deed.part == record.part && deed.event_kind == record.event.kind &&
         deed.acted == record.acted && record.event.at - deed.last <= kOneDeed;
}

}  // namespace

bool is_deed(const TraceRecord& record) {
  if (record.located != nullptr) {
    const circuit::What what = record.located->what;
    return what == circuit::What::kStarts || what == circuit::What::kSeats ||
           what == circuit::What::kReturns || what == circuit::What::kHeld ||
           what == circuit::What::kMelts;
  }
  const std::uint16_t kind = record.event.kind;
  const bool told = (kind >= kSignalBase && kind < kLinkChangedBase) || kind == kRideMakes;
  return told || !record.acted;
}

void DeedWatch::record(const TraceRecord& record) {
  if (!is_deed(record)) return;
  for (auto deed = deeds_.rbegin(); deed != deeds_.rend(); ++deed) {
    if (record.event.at - deed->last > kOneDeed && record.event.at - deed->at > kMinute) break;
    if (!continues(*deed, record)) continue;
    deed->last = record.event.at;
    return;
  }
  Deed deed;
  deed.at = deed.last = record.event.at;
  deed.part = record.part;
  deed.event_kind = record.event.kind;
  deed.kind = record.kind;
  deed.acted = record.acted;
  deed.by_hand = is_command(record.event.kind);
  deed.value = record.event.value;
  deeds_.push_back(deed);
}

std::vector<Deed> DeedWatch::take(SimTime until) {
  const auto over = std::stable_partition(
      deeds_.begin(), deeds_.end(), [until](const Deed& d) { return d.last < until - kSecond; });
  std::vector<Deed> taken(deeds_.begin(), over);
  deeds_.erase(deeds_.begin(), over);
  return taken;
}

std::vector<Deed> deeds_in(Session& session, SimTime from, SimTime to) {
  const auto here = session.save();
  session.seek(from - 1);
  DeedWatch watch;
  session.set_sink(&watch);
  session.run_until(to);
  session.set_sink(nullptr);
  session.restore(here);
  return watch.take(kNever);
}

}  // namespace sixty::explain
