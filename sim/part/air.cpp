#include "sim/part/air.hpp"

#include <algorithm>

#include "sim/circuit/copper.hpp"

namespace sixty {

void declare_air(Declaration& d) {
  const bool there = std::any_of(d.taken.begin(), d.taken.end(),
                                 [](const LinkDecl& l) { return l.name == "surroundings"; });
  if (there) return;
  d.takes<Surroundings>("surroundings",
                        "air about it: copper as warm as that in place of `temperature`, films "
                        "that grow in it",
                        true);
}

double CopperInAir::ohm(Ctx& ctx) const {
  return cold_ohm_ * circuit::copper_factor(ctx.state(air_).temperature_k);
}

void CopperInAir::follow(int coil, Ctx& ctx) const {
  if (!in_air()) return;
  const double now_ohm = ohm(ctx);
  if (ctx.reader().coil(coil).resistance_ohm != now_ohm)
    ctx.change_coil(coil).resistance_ohm = now_ohm;
}

}  // namespace sixty
