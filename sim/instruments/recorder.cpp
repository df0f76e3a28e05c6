#include "sim/instruments/recorder.hpp"

#include <algorithm>
#include <cmath>

#include "sim/instruments/uncertainty.hpp"

namespace sixty::instruments {
namespace {

constexpr double kOfRange = 0.01;
constexpr double kLeastRange = 1e-9;
constexpr double kLeastElectric = 1e-3;  // of volts and amperes: no recorder shows picoamperes

}  // namespace

double range_for(double largest) {
  double range = kLeastRange;
  while (range < largest) {
    for (const double factor : {2.0, 5.0, 10.0}) {
      if (range * factor >= largest) return range * factor;
    }
    range *= 10;
  }
  return range;
}

double Channel::largest() const {
  double largest = 0;
  for (const double v : samples) largest = std::max(largest, std::fabs(v));
  return largest;
}

double Channel::range() const {
  const bool electric = unit == "V" || unit == "A";
  return range_for(std::max(largest(), electric ? kLeastElectric : 0));
}

double Channel::uncertainty() const {
  const double range = this->range();
  const double step = range / (1 << (Recorder::kBits - 1));
  return expanded_uncertainty({kOfRange * range, step / 2});
}

void Recorder::run(Session& session, SimTime from, SimTime until) {
  for (SimTime t = from; t <= until; t += every_) {
    session.run_until(t);
    for (Channel& channel : channels_) channel.samples.push_back(channel.quantity(session));
  }
  for (Channel& channel : channels_) {
    const double step = channel.range() / (1 << (kBits - 1));
    for (double& v : channel.samples) v = to_step(v, step);
  }
}

}  // namespace sixty::instruments
