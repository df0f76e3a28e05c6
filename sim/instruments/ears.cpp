#include "sim/instruments/ears.hpp"

#include <cmath>

namespace sixty::instruments {

Stethoscope::Stethoscope(const Installation& installation, PartId part) : part_(part) {
  for (const EventDecl& e : installation.parts[part].kind->declaration.events) {
    if (e.heard) sounds_.emplace(e.kind, e.name);
  }
}

void Stethoscope::record(const TraceRecord& record) {
  if (record.part != part_ || !record.acted) return;
  const bool passes = record.located != nullptr && record.located->what == circuit::What::kPasses;
  const auto kind =
      passes ? static_cast<std::uint16_t>(kMarkBase + record.located->code) : record.event.kind;
  if (sounds_.count(kind) == 0) return;
  const double speed = record.located == nullptr ? 0 : std::fabs(record.located->speed_m_per_s);
  heard_.push_back({record.event.at, std::string(record.kind), speed});
}

void Tally::record(const TraceRecord& record) {
  if (record.part != part_ || !record.acted) return;
  if (kind_.empty() || record.kind == kind_) ++counts_[std::string(record.kind)];
}

}  // namespace sixty::instruments
