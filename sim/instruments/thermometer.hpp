#pragma once

#include <optional>

#include "sim/run/session.hpp"

namespace sixty::instruments {

/// A contact thermometer: follows what it lies on with a lag, and may be off by half a kelvin.
/// Common practice, no source.
class Thermometer {
 public:
  static constexpr double kLag_s = 30;
  static constexpr double kLimit_k = 0.5, kStep_k = 0.1;

  struct Place {
    PartId part = 0;  ///< whose reading tells the temperature
    std::size_t reading = 0;
  };
  /// The part's own temperature, or that of the air that it takes; nothing where none is told.
  static std::optional<Place> place_of(const Installation& installation, PartId part);

  explicit Thermometer(double first_k) : shown_k_(first_k) {}
  void follow(double temperature_k, double seconds);
  /// What it shows. `seed` decides upon its error.
  double shown_k(std::uint64_t seed) const;
  static double uncertainty_k();

 private:
  double shown_k_;
};

}  // namespace sixty::instruments
