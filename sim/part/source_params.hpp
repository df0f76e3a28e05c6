#pragma once

#include <string>

#include "sim/part/part.hpp"

namespace sixty {

/// What all parts that feed the installation have in common: an electromotive force behind a
/// resistance as an element of the network, and what a person reads and reports of it.

/// Readings volts, current, emf, charge, in this order.
constexpr std::size_t kSourceReadings = 4;
void declare_source_readings(Declaration& d);

/// A source that was put into the network as element `number`, with the values that it has now.
struct BuiltSource {
  circuit::Source element;
  int number = -1;

  double volts(const Reader& r) const;
  double current_a(const Reader& r) const;
  /// At the terminals since the start, what is there now if no time has passed. Units: V.
  double least_v(const Reader& r) const;
  /// Range: reading < kSourceReadings.
  double read(const Reader& r, std::size_t reading) const;
  /// Least volts, most amperes and charge: into the object `section` if the part is the first that
  /// names it, and as a row with the part's name into `list`.
  void report(Report& report, const Reader& r, const std::string& name, const std::string& section,
              const std::string& list) const;
  /// "24 V behind 0.3 ohm; least 23.6 V at the terminals, most 1.2 A, 1.234 Ah used"
  std::string sentence(const Reader& r) const;
};

}  // namespace sixty
