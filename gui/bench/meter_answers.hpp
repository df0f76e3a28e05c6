#pragma once

#include <array>
#include <string>
#include <string_view>

#include "sim/instruments/measure.hpp"

namespace sixty::gui {

/// What is written on a needle's scale: at its beginning, middle and end, and in which unit.
struct Scale {
  std::array<std::string, 3> marks;
  std::string unit;
};
/// Units: of the SI unit that is given. Range: a unit of volts, amperes and the like.
Scale scale_of(double full_scale, std::string_view unit);

/// A meter's value with its uncertainty, in words where it is beyond the scale.
std::string read_text(const instruments::MeterReading& reading,
                      const instruments::Meter::Read& read);
/// What an instrument tells, in as much width as there is: a needle over its scale, digits, or
/// sentences. Order: within a panel.
void show_answer(const instruments::Answer& answer);
/// A fast meter with a needle beside it.
void show_side_by_side(const instruments::MeterReading& needle,
                       const instruments::MeterReading& fast);

}  // namespace sixty::gui
