#pragma once

#include <cstdint>

#include "sim/base/time.hpp"
#include "sim/diagnose/sign.hpp"

namespace sixty::diagnose {

/// What is kept of one sign in one span, whatever is asked of it in the end.
class Tally {
 public:
  /// A number that was read, or how long something lasted.
  void add(double number, SimTime at);
  /// The same of a number that begins anew after each `around`: followed from where it was last.
  void add_around(double number, double around, SimTime at);
  /// An event.
  void came(SimTime at);
  /// NaN if there was nothing. Range: begin < end, of the span.
  double value(SignSource::Take take, SimTime begin, SimTime end) const;

 private:
  double first_ = 0, last_ = 0, least_ = 0, most_ = 0, sum_ = 0;
  std::int64_t count_ = 0;
  SimTime last_at_ = -1;  ///< of the last event, or of the last number that was another
};

}  // namespace sixty::diagnose
