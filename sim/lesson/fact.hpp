#pragma once

#include <limits>
#include <optional>
#include <string>
#include <vector>

#include "sim/instruments/order.hpp"
#include "sim/run/session.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty::lesson {

/// From one instant of a run to another, both among it.
struct Span {
  SimTime from = 0, to = 0;
};

/// Something that happens at a part.
struct Happening {
  PartId part = 0;
  std::string kind;  ///< of event
  bool operator==(const Happening&) const = default;
};

/// One number of a run in a span of time: lessons state no other.
struct Fact {
  enum class What : std::uint8_t {
    kReading,
    kEvent,
    kLasting,  ///< from the first `event` to the first `end` behind it
    kMeter     ///< what an instrument shows that is laid on for the span
  };
  enum class Take : std::uint8_t {
    kLast,
    kFirst,  ///< of a reading its value, of events how long after the span's beginning
    kLeast,
    kMost,
    kMean,
    kChange,  ///< last less first
    kCount    ///< how many events
  };
  What what = What::kReading;
  Take take = Take::kLast;
  ReadingOf reading;
  Happening event, end;
  std::optional<instruments::Order> order;
  std::string unit;  ///< SI; empty where it has none
};

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

/// The numbers of a run in a span, NaN where nothing has one (no such event). Readings are looked
/// at 20,000 times at the most, each millisecond at the closest. Order: the session's log is that
/// of the run; it stands elsewhere afterwards. Errors: throws RunFailure as Session does.
std::vector<double> values_of(const std::vector<Fact>& facts, Session& session, Span span);

/// Reads a fact: a map with `reading: PART.READING`, `event: PART.KIND`, `from: PART.KIND` and
/// `to: PART.KIND`, or `meter: ORDER`, and `take`. Errors: nothing, reported.
std::optional<Fact> read_fact(const YamlNode& node, const Installation& installation,
                              TreeReader& reader);
/// Keys that read_fact() reads.
std::vector<std::string> keys_of_fact();
/// "PART.KIND". Errors: nothing, reported.
std::optional<Happening> read_happening(const YamlNode& node, const std::string& label,
                                        const Installation& installation, TreeReader& reader);

}  // namespace sixty::lesson
