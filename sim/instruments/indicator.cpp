#include "sim/instruments/indicator.hpp"

#include <cmath>

namespace sixty::instruments {
namespace {

// Of two equal values the first one counts, whatever their last digits.
constexpr double kSame = 1e-6;

}  // namespace

void Indicator::show(double value) {
  const Shown shown{value, now_s_};
  const double same = kSame * std::fabs(value);
  if (!any_ || value < shown_.least.value - same) shown_.least = shown;
  if (!any_ || value > shown_.most.value + same) shown_.most = shown;
  shown_.last = shown;
  any_ = true;
}

}  // namespace sixty::instruments
