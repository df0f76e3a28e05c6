#pragma once

#include "sim/run/session.hpp"

namespace sixty::instruments {

/// An ohmmeter's answer. It sends a small current round and reckons from the volts that stand at
/// its tips: where others drive volts there, what it shows means nothing.
struct Ohms {
  double ohm = 0;
  double uncertainty_ohm = 0;
  bool beyond = false;      ///< more than it can show: no way
  bool continuous = false;  ///< it would sound
  double foreign_v = 0;     ///< what stood at the tips without it
  bool alive() const { return foreign_v > kDead_v || foreign_v < -kDead_v; }

  static constexpr double kTest_v = 0.3;  ///< so little that no diode lets it through
  static constexpr double kSounds_ohm = 30;
  static constexpr double kMost_ohm = 40e6;
  static constexpr double kDead_v = 0.02;
};

/// Between two nodes, as all contacts stand now, once coils and capacitors have settled.
/// 0.8 % and 2 counts of 4000 in ranges of 400 ohm, 4 kohm ... 40 Mohm; sounds below 30 ohm. Common
/// practice, no source.
Ohms read_ohms(const Session::CircuitNow& now, circuit::Node a, circuit::Node b,
               std::uint64_t seed);

}  // namespace sixty::instruments
