#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "sim/base/diagnostic.hpp"
#include "sim/base/time.hpp"

namespace sixty {

/// When, and how much of it, a fault that was put in is in force.
struct Course {
  enum class Kind : std::uint8_t {
    kSteady,   ///< from the first moment on, whole
    kGrowing,  ///< from nothing to the whole in `span`, in equal steps
    kRandom,   ///< a share `amount` of the time, each time for `span` on the average
    kKnocks,   ///< for `span` after each knock at the wall
    kBelow,    ///< while it is colder than `amount`, K
    kAbove,    ///< while it is warmer than `amount`, K
    kDamp,     ///< while the air is damper than `amount`
    kHours,    ///< from `from` to `to` each day, by the clock on the wall
    kLoad,     ///< from more than `amount`, A, in one of the part's elements, till a tenth of it
  };
  Kind kind = Kind::kSteady;
  double amount = 0;
  SimTime span = 0;
  SimTime from = 0, to = 0;  ///< of the day
};

/// Reads "steady", "growing over 7d", "random 10 % for 30s", "after knocks for 5s", "below 10
/// degC", "above 30 degC", "damper than 70 %", "from 06:00 to 09:00" or "over 0.5 A". Errors:
/// nothing, with what, found, expected and mend set in `mistake`.
std::optional<Course> parse_course(std::string_view text, Diagnostic& mistake);
/// The text that is read back as the same course.
std::string course_text(const Course& course);

}  // namespace sixty
