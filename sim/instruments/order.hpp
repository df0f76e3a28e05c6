#pragma once

#include <optional>
#include <string>

#include "sim/instruments/meter.hpp"
#include "sim/scene/hookup.hpp"
#include "sim/scene/mistakes.hpp"

namespace sixty::instruments {

/// What is to be measured, and where.
struct Order {
  enum class Kind {
    kVolts,
    kAmperes,
    kOhms,
    kReading,  ///< recorder only: a reading of a part, as from a sensor on it
    kListen,   ///< stethoscope
    kTemperature,
    kBeat,
    kTally,
  };
  std::string text;  ///< as written
  Kind kind = Kind::kVolts;
  bool recorded = false;
  Hookup leads;  ///< of volts, amperes and ohms; without its resistance
  bool needle = false;
  double full_scale = 0;  ///< of the range asked for; 0: one that suits
  PartId part = 0;        ///< of the others
  std::size_t reading = 0;
  std::string event;          ///< of a tally; empty: all kinds
  double beats_per_hour = 0;  ///< 0: what comes nearest

  /// Laid on the circuit, which feels it.
  bool is_electrical() const { return kind == Kind::kVolts || kind == Kind::kAmperes; }
  bool is_meter() const { return is_electrical() && !recorded; }
};

/// The meter that is asked for. Range: is_electrical().
const MeterSheet& sheet_of(const Order& order);

/// Reads an order:
/// "V:WHERE", "A:WHERE", "ohm:WHERE" with WHERE a part that has two ends, a pair of a part's
/// terminals by the word that they share ("lamp_1.left"), or "PART.TERMINAL..PART.TERMINAL"; an
/// ammeter is led into the wire at the first of a pair, or lies across where two are told apart by
/// ".."; "record:" and one of these or "PART.READING"; "listen:PART", "temperature:PART",
/// "beat:PART", "tally:PART[.KIND]". Behind them ",as=needle", ",range=50 V", ",beats=3600".
/// Errors: nothing, reported with what there is.
std::optional<Order> read_order(const std::string& text, const Installation& installation,
                                Mistakes& mistakes);

}  // namespace sixty::instruments
