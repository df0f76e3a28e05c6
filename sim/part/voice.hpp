#pragma once

#include <algorithm>
#include <cstdint>

namespace sixty {

/// What one kind of a part's events sounds like. It is told, and nothing that happens depends on
/// it.
struct Voice {
  enum class Kind : std::uint8_t {
    kTick,   ///< small steel on steel
    kClick,  ///< an armature, a blade, a pawl
    kThump,  ///< something heavy on wood
    kRing    ///< a gong
  };
  Kind kind = Kind::kClick;
  std::uint16_t event = 0;  ///< kind of the event, as the part's trace bears it
  double frequency_hz = 0;  ///< of the lowest tone
  double decay_s = 0;       ///< until it has fallen to a thousandth
  double loudness = 0;      ///< at `full_m_per_s`; 1: as loud as anything
  double full_m_per_s = 0;  ///< speed of impact at which it is so loud; 0: it always is
  double from_m_per_s = 0;  ///< below this it is not heard

  /// Amplitude after an impact at a speed: in proportion to it, as the impulse is. Range: speed >=
  /// 0.
  double strength(double speed_m_per_s) const {
    if (speed_m_per_s < from_m_per_s) return 0;
    if (full_m_per_s <= 0) return loudness;
    return loudness * std::min(speed_m_per_s / full_m_per_s, 2.0);
  }
};

}  // namespace sixty
