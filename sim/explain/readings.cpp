#include "sim/explain/readings.hpp"

#include <algorithm>
#include <cmath>
#include <map>

namespace sixty::explain {
namespace {

constexpr double kNoticed = 0.01;
constexpr double kNothing = 1e-4;    // the sparks of a contact that breaks none
constexpr double kNoAmperes = 1e-4;  // what a meter draws that nothing else does

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
  std::vector<OtherReading> seen;
  for (PartId p = 0; p < parts.size(); ++p) {
    const std::vector<NamedDecl>& readings = parts[p].kind->declaration.readings;
    for (std::size_t k = 0; k < readings.size(); ++k) {
      if (!readings[k].swings)
        seen.push_back({p, k, ours.now(), ours.read(p, k), sound.read(p, k), looked_at_});
    }
  }
  note(seen, ours.installation());
  looked_at_ = ours.now();
}

void ReadingWatch::note(const std::vector<OtherReading>& seen, const Installation& scene) {
  const auto unit = [&](const OtherReading& o) -> const std::string& {
    return scene.parts[o.part].kind->declaration.readings[o.reading].unit;
  };
  std::map<std::string, double> largest;
  for (const OtherReading& o : seen) {
    double& most = largest[unit(o)];
    most = std::max({most, std::fabs(o.ours), std::fabs(o.sound)});
  }
  for (const OtherReading& o : seen) {
    const double least = std::max(kNothing * largest[unit(o)], unit(o) == "A" ? kNoAmperes : 0);
    const bool noticed = o.share() > kNoticed && std::fabs(o.ours - o.sound) > least;
    const auto same = [&](const OtherReading& k) {
      return k.part == o.part && k.reading == o.reading;
    };
    if (noticed && std::none_of(others_.begin(), others_.end(), same)) others_.push_back(o);
  }
}

std::vector<OtherReading> ReadingWatch::take() {
  std::stable_sort(others_.begin(), others_.end(), [](const auto& a, const auto& b) {
    return a.first != b.first ? a.first < b.first : a.share() > b.share();
  });
  return std::move(others_);
}

}  // namespace sixty::explain
