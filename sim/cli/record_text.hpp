#pragma once

#include <array>
#include <optional>
#include <string>

#include "sim/base/clock_time.hpp"
#include "sim/run/session.hpp"

namespace sixty::cli {

/// "5.072000000": seconds with all nine digits, from integers alone. Range: t >= 0.
std::string seconds_text(SimTime t);

/// "17"; of what only a full trace has: "t17.2" for the second note of event 17, "t17+2" for the
/// second step that a part took by itself after event 17.
std::string event_id_text(EventId id);

/// Name of a part of the installation.
const std::string& part_name(const Installation& installation, PartId part);

/// What clocks on the wall say through a scene.
const CivilClock& clock_of(const Installation& installation);

/// The start, ISO 8601.
std::string start_text(const Installation& installation);

/// An instant as part of an event's address, exact: within the first week by weekday, later by
/// date, so that the same text leads back to the same instant.
std::string address_time(const CivilClock& clock, SimTime t);

/// What a record measured; nothing where a quantity makes no sense for its kind.
struct Measured {
  std::optional<double> current_a, volts, gap_m, speed_m_per_s, needed_v;
  std::optional<double> value;  ///< payload of the event; energy in joules of a spark that ended
  std::optional<std::int64_t> number;  ///< payload of the event; code of a passed mark
};
Measured measured(const TraceRecord& record);

/// One quantity of Measured: the name that files use, the number, and its unit for people.
struct MeasuredField {
  const char* name;
  std::optional<double> number;
  const char* unit;
};
/// All of them but `number`, in the order of the columns of a trace.
std::array<MeasuredField, 6> fields_of(const Measured& measured);

}  // namespace sixty::cli
