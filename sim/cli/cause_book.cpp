#include "sim/cli/cause_book.hpp"

#include <fmt/format.h>

#include "sim/cli/record_text.hpp"

namespace sixty::cli {
namespace {

bool is_command(std::uint16_t kind) { return kind >= kCommandBase && kind < kLinkChangedBase; }

}  // namespace

CauseBook::CauseBook(const Installation& installation)
    : installation_(installation), clock_(clock_of(installation)) {}

void CauseBook::enter(const TraceRecord& record) {
  const auto kind = kind_numbers_.find(record.kind);
  std::uint32_t number = static_cast<std::uint32_t>(kinds_.size());
  if (kind != kind_numbers_.end()) {
    number = kind->second;
  } else {
    kinds_.emplace_back(record.kind);
    kind_numbers_.emplace(kinds_.back(), number);
  }
  if ((record.event.id & kTraceOnly) != 0) return;  // causes nothing
  if (record.event.id >= entries_.size()) entries_.resize(record.event.id + 1);
  entries_[record.event.id] = {record.event.at, record.part, number};
}

const CauseBook::Entry* CauseBook::find(EventId id) const {
  return id < entries_.size() && entries_[id].at >= 0 ? &entries_[id] : nullptr;
}

std::string CauseBook::address_of(std::string_view kind, PartId part, SimTime at) const {
  return fmt::format("{} {} @ {}", kind, part_name(installation_, part), address_time(clock_, at));
}

std::string CauseBook::address(const TraceRecord& record) const {
  return address_of(record.kind, record.part, record.event.at);
}

std::string CauseBook::cause(const TraceRecord& record) const {
  if (const Entry* entry = find(record.event.cause)) {
    return address_of(kinds_[entry->kind], entry->part, entry->at);
  }
  if (record.event.cause != kSceneStart) return "event " + event_id_text(record.event.cause);
  return is_command(record.event.kind) ? "a hand" : "the scene's start";
}

}  // namespace sixty::cli
