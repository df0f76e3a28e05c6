#pragma once

#include <memory>
#include <optional>
#include <variant>
#include <vector>

#include "sim/instruments/beat_timer.hpp"
#include "sim/instruments/ears.hpp"
#include "sim/instruments/meter.hpp"
#include "sim/instruments/ohms.hpp"
#include "sim/instruments/order.hpp"
#include "sim/instruments/recorder.hpp"

namespace sixty::instruments {

/// What a voltmeter or an ammeter has shown, and what really was there, as far as the meter let it.
struct MeterReading {
  const MeterSheet* sheet = nullptr;
  MeterRange range;
  Meter::Read last, least, most;
  double really_least = 0, really_most = 0;
};

struct TemperatureReading {
  double kelvin = 0, uncertainty = 0;
};

using Heard = std::vector<Stethoscope::Heard>;
using Counts = std::map<std::string, std::int64_t>;
/// Nothing: fewer than three beats were heard.
using Beats = std::optional<BeatReading>;

/// Answer to one order.
using Answer = std::variant<MeterReading, Ohms, Channel, Heard, TemperatureReading, Beats, Counts>;

struct Window {
  SimTime from = 0, to = 0;
  SimTime every = 0;  ///< of the recorder
};

/// Runs an installation and measures all that is ordered at once, so that each meter feels what the
/// others do to the circuit. Ranges that nobody chose are found from the highest down, as one does
/// at the bench. Ohms are read at the end of the window.
/// Order: orders read for this installation. Errors: throws RunFailure as Session does.
std::vector<Answer> measure(const std::shared_ptr<const Installation>& installation,
                            const std::vector<Order>& orders, const Window& window);

/// The same in a session that goes on: its instants and its log of actions count. It stands
/// elsewhere afterwards, with the log that it had.
std::vector<Answer> measure(Session& session, const std::vector<Order>& orders,
                            const Window& window);

/// What cannot be measured there is reported: no air, no beat, no such event, a third channel.
void check_orders(const std::vector<Order>& orders, const Installation& installation,
                  Mistakes& mistakes);

}  // namespace sixty::instruments
