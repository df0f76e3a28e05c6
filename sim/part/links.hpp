#pragma once

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <type_traits>

namespace sixty {

/// Number of a part in its installation.
using PartId = std::uint32_t;

/// Does not compile where a type has gaps between its fields: a byte of a gap has no value to add.
template <class S>
consteval bool has_no_gaps() {
  unsigned sum = 0;
  for (const unsigned char byte : std::bit_cast<std::array<unsigned char, sizeof(S)>>(S{})) {
    sum += byte;
  }
  return sum + 1 > 0;
}

/// Place of a part's changing values in the world's state. The state is compared and hashed as
/// bytes: fill gaps between fields with spare ones, since padding keeps no value.
template <class S>
struct StateSlot {
  static_assert(std::is_trivially_copyable_v<S> && alignof(S) <= 8);
  static_assert(has_no_gaps<S>());
  std::size_t offset = SIZE_MAX;
  bool valid() const { return offset != SIZE_MAX; }
};

/// A wound drive: torque in proportion to how far its arbor is wound. The offering part winds it,
/// the taking part unwinds it, and each writes only its own figures: so neither needs to know how
/// fine the other's steps are, and what is put in is what comes out.
struct Drive {
  static constexpr const char* kKind = "drive";
  static constexpr double kPartsPerTurn = 3600;  ///< a part is a tenth of a degree of the arbor
  std::int64_t put_in = 0;  ///< offering part: parts wound since the start, the first included
  double torque_per_part_nm = 0;  ///< offering part: at the drive's own arbor
  std::int64_t steps_taken = 0;   ///< taking part: steps it has made since the start
  double parts_per_step = 0;      ///< taking part: of the drive's arbor, in one of those steps
  double parts_left() const {
    return static_cast<double>(put_in) - static_cast<double>(steps_taken) * parts_per_step;
  }
  /// Order: only when the taking part has said how far a step goes.
  double steps_left() const {
    return static_cast<double>(put_in) / parts_per_step - static_cast<double>(steps_taken);
  }
};

/// A shaft that turns in whole steps; others ride on it and are told when their place comes.
struct Shaft {
  static constexpr const char* kKind = "shaft";
  std::int64_t position = 0;  ///< steps since the last full turn before the scene began
  std::int64_t steps_per_turn = 0;
  std::int64_t began_at = 0;  ///< position as the scene began, 0 .. steps_per_turn - 1
  /// Turns at a position of which a step has gone by, the turn under way too. Range: steps_per_turn
  /// > 0.
  std::int64_t turns_past(std::int64_t step, std::int64_t at) const {
    const std::int64_t turns = at / steps_per_turn;
    return at % steps_per_turn > step ? turns + 1 : turns;
  }
};

/// How something rides on a shaft: acts at two places of each turn, and drags between them.
struct Riding {
  std::int64_t make_at = 0;  ///< step of the turn, 0 .. steps_per_turn - 1
  std::int64_t break_at = 0;
  double drag_nm = 0;  ///< while in between
};

/// What rides on a shaft. It may be set otherwise while it runs, but only while it does not drag:
/// what the shaft does up to its next place has been foreseen.
struct Rider {
  PartId part = 0;
  Riding at_start;
  StateSlot<Riding> now;  ///< kept by the part that rides
};

/// What surrounds the installation, in steps of the model's own grid, so that equal moments come
/// again: temperature in whole kelvins, humidity in twentieths, mains in steps of a volt.
struct Surroundings {
  static constexpr const char* kKind = "surroundings";
  double temperature_k = 293.15;
  double humidity = 0.5;  ///< relative, 0..1
  double pressure_pa = 101325;
  double mains_v = 230;  ///< rms; 0 while it fails
  /// How long contacts have been in the air, as if it had been at 20 degC and half damp all the
  /// time, in steps of 30 days.
  double exposure_s = 0;
  std::int64_t knocks = 0;   ///< that have shaken the wall so far
  double knock_m_per_s = 0;  ///< speed that the last one gave it, along the pendulum's swing
  bool operator==(const Surroundings&) const = default;
};

/// What is laid down for each minute of a day in up to eight columns: bit 0 of a minute is column
/// 1. It comes again after `minutes`, so that one half-day may serve for both.
struct DayProgram {
  static constexpr const char* kKind = "day_program";
  static constexpr std::size_t kMostMinutes = 1440;
  std::int64_t columns = 0;
  std::int64_t minutes = 0;  ///< of the loop; 0: nothing laid down yet
  std::array<std::uint8_t, kMostMinutes> acts = {};
};

/// Which of up to eight columns may act in each half-day of a week; 0 is Monday a.m.
struct WeekProgram {
  static constexpr const char* kKind = "week_program";
  static constexpr std::size_t kHalfDays = 14;
  std::int64_t columns = 0;
  std::array<std::uint8_t, kHalfDays> may_act = {};
  std::uint8_t spare[2] = {};
};

}  // namespace sixty
