#pragma once

#include <cstdint>

namespace sixty {

/// Simulated time since the scene's start. Units: integer nanoseconds, so that every run on every
/// machine agrees to the bit. Range: +-292 years.
using SimTime = std::int64_t;

constexpr SimTime kMicrosecond = 1'000;
constexpr SimTime kMillisecond = 1'000'000;
constexpr SimTime kSecond = 1'000'000'000;
constexpr SimTime kMinute = 60 * kSecond;
constexpr SimTime kHour = 60 * kMinute;
constexpr SimTime kDay = 24 * kHour;
constexpr SimTime kWeek = 7 * kDay;
constexpr SimTime kNever = INT64_MAX;

/// Seconds of a time, for output and physics that need no more than 53 bits.
constexpr double to_seconds(SimTime t) { return static_cast<double>(t) * 1e-9; }

/// Nearest nanosecond of a duration. Units: s. Range: |seconds| < 9e9.
constexpr SimTime from_seconds(double seconds) {
  return static_cast<SimTime>(seconds * 1e9 + (seconds < 0 ? -0.5 : 0.5));
}

}  // namespace sixty
