#include "gui/strip/axis.hpp"

#include <cmath>

#include "gui/strip/lanes.hpp"
#include "gui/strip/span.hpp"

namespace sixty::gui {
namespace {

constexpr double kLeap = 2;  // to what stays, from which on it is one

}  // namespace

void Reach::take(const Column& column) {
  low = std::min(low, static_cast<double>(column.least));
  high = std::max(high, static_cast<double>(column.most));
  rest = std::max(rest, std::fabs(static_cast<double>(column.last)));
}

void Reach::take(double value) {
  low = std::min(low, value);
  high = std::max(high, value);
  rest = std::max(rest, std::fabs(value));
}

Axis axis_of(const Reach& reach, bool is_volts) {
  const auto [low, high, rest] = reach;
  if (low > high) return {};
  if (is_volts && low > 0.4 * high) {
    const double around = std::max(0.2 * (high - low), 0.005 * high);
    return {low - around, high + around};
  }
  const double largest = std::max(high, -low);
  if (largest <= kNothing) return {low < -1e-3 ? -1.0 : 0.0, 1};
  // Short pulses end within a column; a kick is of the other sign than they are.
  const double working = std::max(rest, std::min(high, -low));
  const bool leaps = is_volts && working > kNothing && largest > kLeap * working;
  const double most = round_above(leaps ? working : largest);
  Axis axis{low < -1e-3 * most ? -most : 0, most};
  axis.is_beyond_low = leaps && low < axis.low;
  axis.is_beyond_high = leaps && high > axis.high;
  return axis;
}

}  // namespace sixty::gui
