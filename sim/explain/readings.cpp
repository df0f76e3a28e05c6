#include "sim/explain/readings.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::explain {
namespace {

constexpr double kNoticed = 0.01;

/// An hour is looked at every ten minutes, a day every hour, then every six.
SimTime after(SimTime now) {
  if (now < kHour) return now + 10 * kMinute;
  return now + (now < kDay ? kHour : 6 * kHour);
}

}  // namespace

double OtherReading::share() const {
  const double larger = std::max(std::fabs(ours), std::fabs(sound));
  return larger > 0 ? std::fabs(ours - sound) / larger : 0;
}

void ReadingWatch::look(Session& ours, Session& sound) {
  if (ours.now() < next_) return;
  next_ = after(ours.now());
  const std::vector<PartInstance>& parts = ours.installation().parts;
  for (PartId p = 0; p < parts.size(); ++p) {
    for (std::size_t k = 0; k < parts[p].kind->declaration.readings.size(); ++k)
      compare(ours, sound, p, k);
  }
}

void ReadingWatch::compare(Session& ours, Session& sound, PartId part, std::size_t reading) {
  const OtherReading seen{part, reading, ours.now(), ours.read(part, reading),
                          sound.read(part, reading)};
  if (!(seen.share() > kNoticed)) return;
  const bool known = std::any_of(others_.begin(), others_.end(), [&](const OtherReading& o) {
    return o.part == part && o.reading == reading;
  });
  if (!known) others_.push_back(seen);
}

std::vector<OtherReading> ReadingWatch::take() {
  std::stable_sort(others_.begin(), others_.end(), [](const auto& a, const auto& b) {
    return a.first != b.first ? a.first < b.first : a.share() > b.share();
  });
  return std::move(others_);
}

}  // namespace sixty::explain
