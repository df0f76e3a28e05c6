#include "sim/part/margin.hpp"

#include <cmath>

namespace sixty {
namespace {

constexpr double kNothing = 1e-3;  // share of what is needed; the coil has been let go

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
  if (needed_v_ > 0 && arrived * needed_v_ >= arrived_v_ * needed) return;
  arrived_v_ = arrived;
  needed_v_ = needed;
  at_ = now;
}

void LeastMargin::report(Report& report, const std::string& group, const std::string& part,
                         const Reader& r) const {
  if (needed_v_ <= 0) return;
  report.margin({group, part, arrived_v_, needed_v_, r.day_text(at_)});
}

}  // namespace sixty
