#include "sim/part/margin.hpp"

#include <algorithm>
#include <cmath>

namespace sixty {
namespace {

constexpr double kNothing = 1e-3;  // share of what is needed; the coil has been let go
constexpr SimTime kOneImpulse = 50 * kMillisecond;  // longer than any contact bounces

}  // namespace

void LeastMargin::drove(const circuit::Located& drive, const circuit::Coil& coil,
                        double extra_load_n, SimTime now) {
  if (pulls_in_a_ <= 0 || load_n_ != extra_load_n) {
    pulls_in_a_ = circuit::statics(coil.magnet, coil.armature, extra_load_n).pulls_in_a;
    load_n_ = extra_load_n;
  }
  const double needed = pulls_in_a_ * coil.resistance_ohm;
  const bool held = drive.what == circuit::What::kHeld;
  const double arrived = held ? std::fabs(drive.volts) : drive.arrives_v;
  if (held && (arrived < kNothing * needed || arrived >= needed)) return;
  const bool goes_on = latest_.needed_v == needed && now - latest_.at < kOneImpulse;
  if (goes_on) {
    latest_.arrived_v = std::max(latest_.arrived_v, arrived);
    return;
  }
  least_ = weakest();
  latest_ = {arrived, needed, now};
}

LeastMargin::Drive LeastMargin::weakest() const {
  if (latest_.needed_v <= 0) return least_;
  const bool latest_is = least_.needed_v <= 0 ||
                         latest_.arrived_v * least_.needed_v < least_.arrived_v * latest_.needed_v;
  return latest_is ? latest_ : least_;
}

void LeastMargin::report(Report& report, const std::string& group, const std::string& part,
                         const Reader& r) const {
  const Drive drive = weakest();
  if (drive.needed_v <= 0) return;
  report.margin({group, part, drive.arrived_v, drive.needed_v, r.day_text(drive.at)});
}

}  // namespace sixty
