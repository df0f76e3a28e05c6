#include "sim/diagnose/tally.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "sim/base/math.hpp"

namespace sixty::diagnose {
namespace {

using Take = SignSource::Take;

}  // namespace

void Tally::add(double number, SimTime at) {
  if (count_ == 0 || number != last_) last_at_ = at;
  if (count_ == 0) first_ = least_ = most_ = number;
  last_ = number;
  least_ = std::min(least_, number);
  most_ = std::max(most_, number);
  sum_ += number;
  ++count_;
}

void Tally::add_around(double number, double around, SimTime at) {
  const double turns = count_ == 0 ? 0 : std::round((last_ - number) / around);
  add(number + turns * around, at);
}

void Tally::came(SimTime at) {
  last_at_ = at;
  ++count_;
}

double Tally::value(SignSource::Take take, SimTime begin, SimTime end) const {
  if (take == Take::kCount) return static_cast<double>(count_);
  if (take == Take::kSilence && count_ == 0) return to_seconds(end - begin);
  if (count_ == 0) return std::numeric_limits<double>::quiet_NaN();
  switch (take) {
    case Take::kLast:
      return last_;
    case Take::kLeast:
      return least_;
    case Take::kMost:
      return most_;
    case Take::kMean:
      return sum_ / static_cast<double>(count_);
    case Take::kChange:
      return last_ - first_;
    case Take::kWidth:
      return most_ - least_;
    case Take::kSecond:
      return to_seconds(floor_mod(last_at_, kMinute));
    case Take::kSilence:
    case Take::kStill:
      return to_seconds(end - last_at_);
    case Take::kCount:
      break;
  }
  return 0;
}

}  // namespace sixty::diagnose
