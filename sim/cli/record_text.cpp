#include "sim/cli/record_text.hpp"

#include <fmt/format.h>

namespace sixty::cli {
namespace {

// The happenings of contacts; all others are those of magnets.
bool is_contact(circuit::What what) {
  return what == circuit::What::kMakes || what == circuit::What::kBreaks ||
         what == circuit::What::kSparkEnds || what == circuit::What::kMelts;
}

void measure_magnet(const circuit::Located& located, Measured& m) {
  m.current_a = located.current_a;
  m.volts = located.volts;
  m.gap_m = located.gap_m;
  m.speed_m_per_s = located.speed_m_per_s;
  if (located.what == circuit::What::kHeld) m.needed_v = located.needed_v;
  if (located.what == circuit::What::kPasses) m.number = located.code;
}

void measure_contact(const circuit::Located& located, Measured& m) {
  if (located.what == circuit::What::kMelts) return;  // the break that follows has them
  if (located.what == circuit::What::kSparkEnds) {
    m.value = located.volts;
    return;
  }
  m.current_a = located.current_a;
  m.volts = located.volts;
}

}  // namespace

std::string seconds_text(SimTime t) { return fmt::format("{}.{:09}", t / kSecond, t % kSecond); }

std::string event_id_text(EventId id) {
  if ((id & kTraceOnly) == 0) return std::to_string(id);
  const TraceOnlyId parts = parts_of(id);
  return fmt::format("t{}{}{}", parts.follows, parts.step ? '+' : '.', parts.nth);
}

const std::string& part_name(const Installation& installation, PartId part) {
  static const std::string kNone;
  return part < installation.parts.size() ? installation.parts[part].name : kNone;
}

const CivilClock& clock_of(const Installation& installation) { return installation.clock; }

std::string start_text(const Installation& installation) {
  return format_iso(installation.clock, 0, kExactFraction);
}

std::string address_time(const CivilClock& clock, SimTime t) {
  std::string text = format_instant(clock, t, kExactFraction);
  if (clock.changes.empty()) return text;
  // What clocks show a second time after they have gone back means the first time.
  Diagnostic mistake;
  return parse_time(text, clock, 0, mistake) == t ? text : format_duration(t);
}

Measured measured(const TraceRecord& record) {
  Measured m;
  if (record.located == nullptr) {
    m.value = record.event.value;
    m.number = record.event.number;
  } else if (is_contact(record.located->what)) {
    measure_contact(*record.located, m);
  } else {
    measure_magnet(*record.located, m);
  }
  return m;
}

std::array<MeasuredField, 6> fields_of(const Measured& m) {
  return {{{"current_a", m.current_a, "A"},
           {"volts", m.volts, "V"},
           {"gap_m", m.gap_m, "m"},
           {"speed_m_per_s", m.speed_m_per_s, "m/s"},
           {"needed_v", m.needed_v, "V"},
           {"value", m.value, ""}}};
}

}  // namespace sixty::cli
