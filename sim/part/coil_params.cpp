#include "sim/part/coil_params.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/base/units.hpp"
#include "sim/circuit/copper.hpp"
#include "sim/words/words.hpp"

namespace sixty {
namespace {

const char* const kIron = "own choice of iron: saturation curve of starting values, no source";

/// A quantity without default, or with one that means "there is none".
void quantity(Declaration& d, bool required, const char* name, const char* unit, double least,
              double most, const char* help) {
  if (required) {
    d.quantity(name, unit, least, most, help);
  } else {
    d.quantity(name, unit, 0, 0, most, help, "none unless given");
  }
}

/// What is taken away for no longer than this, and then starts, was one drive: bounces and sparks
/// last some milliseconds, and an armature needs some tens to start.
constexpr SimTime kOneDrive = 100 * kMillisecond;

/// Whether volts are missing, or only time: a coil that has been let go before the verdict has
/// none.
bool lacked_volts(double volts, double needed) { return volts > 1e-3 * needed && volts < needed; }

void motion(Declaration& d, circuit::What what, const char* name, const char* help) {
  d.motion(static_cast<std::uint16_t>(kLocatedBase + static_cast<std::uint16_t>(what)), name, help);
}

circuit::Magnet magnet_of(const Builder& b) {
  circuit::Magnet m;
  m.turns = b.number("turns");
  m.pole_area_m2 = b.number("pole_area");
  m.residual_gap_m = b.number("residual_gap");
  m.iron_length_m = b.number("iron_length");
  m.saturation_t = b.number("saturation");
  m.relative_permeability = b.number("permeability");
  m.coercive_a = b.number("coercive_force");
  return m;
}

circuit::Armature armature_of(const Builder& b) {
  circuit::Armature a;
  a.stroke_m = b.number("stroke");
  a.present = a.stroke_m > 0;
  a.mass_kg = b.number("moving_mass");
  a.preload_n = b.number("preload");
  a.rate_n_per_m = b.number("rate");
  a.second_from_m = b.number("second_gap");
  a.second_preload_n = b.number("second_preload");
  a.second_rate_n_per_m = b.number("second_rate");
  a.friction_n = b.number("friction");
  a.stiction = b.assumptions().friction.stiction;
  a.viscous_n_s_per_m = b.assumptions().friction.per_m_per_s * a.friction_n;
  a.rebound_seat = b.number("rebound_seat");
  a.rebound_open = b.number("rebound_open");
  return a;
}

}  // namespace

void declare_winding(Declaration& d, bool required) {
  d.quantity("resistance", "ohm", 0.05, 1e5, "resistance of the winding at 20 degC");
  d.quantity("temperature", "K", circuit::kCopperReferenceK, 233.15, 423.15,
             "temperature of the winding");
  quantity(d, required, "turns", "1", 1, 1e5, "turns of the winding");
  quantity(d, required, "pole_area", "m2", 1e-7, 0.1, "area of each of the two poles");
  quantity(d, required, "residual_gap", "m", 1e-6, 0.02,
           "gap that stays at each pole when the armature is seated: stop pin and roughness");
  d.quantity("iron_length", "m", 0.0, 0.0, 5.0, "length of the flux's way in iron; 0: ideal iron",
             kIron);
  d.quantity("saturation", "T", 2.0, 0.5, 2.5, "flux density at which the iron is saturated",
             kIron);
  d.quantity("permeability", "1", 2000, 10, 1e5, "relative permeability far from saturation",
             kIron);
  d.quantity("coercive_force", "A", 0.0, 0.0, 500,
             "ampere-turns that the iron's remanence keeps when the flux falls");
  declare_air(d);
  d.quantity("shunt", "ohm", 0.0, 0.0, 1e6, "resistor across the coil; 0: none");
  d.quantity("shorted_turns", "1", 0.0, 0.0, 0.95, "share of the turns that is shorted");
  d.quantity("lead", "ohm", 0.0, 0.0, 1e9, "added in the lead to the coil: a bad joint, a break");
}

void declare_armature(Declaration& d, bool required) {
  quantity(d, required, "stroke", "m", 1e-5, 0.1, "gap at each pole when the armature is open");
  quantity(d, required, "moving_mass", "kg", 1e-5, 20, "moving mass, as felt at the pole");
  quantity(d, required, "preload", "N", 0, 500, "load on the open armature");
  d.quantity("rate", "N/m", 0.0, 0.0, 1e6, "growth of the load as the gap closes");
  d.quantity("second_gap", "m", 0.0, 0.0, 0.1, "gap below which a second spring is met; 0: none");
  d.quantity("second_preload", "N", 0.0, 0.0, 500, "load of the second spring where it is met");
  d.quantity("second_rate", "N/m", 0.0, 0.0, 1e6, "growth of the second spring's load");
  d.quantity("friction", "N", 0.0, 0.0, 100, "friction against the armature's motion");
  d.quantity("rebound_seat", "1", 0.0, 0.0, 0.9, "share of the speed kept at the inner stop");
  d.quantity("rebound_open", "1", 0.0, 0.0, 0.9, "share of the speed kept at the open stop");
}

void declare_armature_events(Declaration& d) {
  using circuit::What;
  motion(d, What::kStarts, "starts", "the armature leaves its open stop and closes");
  motion(d, What::kSeats, "seats", "the armature arrives at its inner stop");
  motion(d, What::kLeaves, "leaves", "the armature leaves its inner stop and opens");
  motion(d, What::kReturns, "returns", "the armature arrives at its open stop");
  motion(d, What::kSticks, "sticks", "the armature comes to rest on its way");
  d.event(static_cast<std::uint16_t>(kLocatedBase + static_cast<std::uint16_t>(What::kHeld)),
          "held", "the coil was driven, and the armature never left its open stop");
}

double pull_in_v(const circuit::Coil& coil, double extra_load_n) {
  return circuit::statics(coil.magnet, coil.armature, extra_load_n).pulls_in_a *
         coil.resistance_ohm;
}

double drop_out_v(const circuit::Coil& coil, double extra_load_n) {
  return circuit::statics(coil.magnet, coil.armature, extra_load_n).drops_out_a *
         coil.resistance_ohm;
}

void declare_armature_care(Declaration& d, HandRange spring_n, HandRange gap_m) {
  d.command("set_spring", "sets the spring's load on the open armature",
            quantity_field("load", "N", spring_n.least, spring_n.most, "at the open stop"))
      .sets = "preload";
  d.command("set_gap", "sets the open stop",
            quantity_field("gap", "m", gap_m.least, gap_m.most, "at each pole, armature open"))
      .sets = "stroke";
}

bool tend_armature(std::uint16_t care, double value, int coil, Ctx& ctx) {
  if (care == 0) {
    ctx.change_coil(coil).armature.preload_n = value;
    return true;
  }
  const circuit::Coil& now = ctx.reader().coil(coil);
  double least = std::max(now.armature.second_from_m, now.armature.seat_m);
  for (const circuit::Mark& mark : now.marks) least = std::max(least, mark.gap_m);
  const std::array<Condition, 1> conditions = {Condition{
      to_tr("gap, beyond all that is worked on the way, m"), value, least, value > least}};
  ctx.because(value > least, conditions);
  if (value > least) ctx.change_coil(coil).armature.stroke_m = value;
  return value > least;
}

circuit::Coil coil_of(Builder& b, circuit::Node a, circuit::Node node_b) {
  circuit::Coil c;
  c.a = a;
  c.b = node_b;
  c.resistance_ohm = b.number("resistance") * circuit::copper_factor(b.number("temperature"));
  c.magnet = magnet_of(b);
  c.armature = armature_of(b);
  if (c.armature.present && c.armature.second_from_m > c.armature.stroke_m) {
    b.refuse("second_gap", "the second spring is met before the armature has moved",
             "give a gap smaller than the stroke, or add the load to preload");
  }
  if (c.armature.present && c.armature.mass_kg <= 0) {
    b.refuse("moving_mass", "an armature without mass",
             "give the moving mass, for example \"30 g\"");
    c.armature.mass_kg = 1;
  }
  return c;
}

BuiltCoil add_coil(Builder& b, circuit::Coil coil) {
  const double cold_ohm = b.number("resistance");
  const double shorted = b.number("shorted_turns");
  const double shorted_ohm = shorted > 0 ? cold_ohm * (1 - shorted) / shorted : 0;
  const double lead = b.number("lead");
  const circuit::Node outer = coil.a;
  if (lead > 0) coil.a = b.inner_node();
  const double shunt = b.number("shunt");
  if (shunt > 0) b.add(circuit::Resistor{coil.a, coil.b, shunt});
  // What may come and go while it runs is added behind what stays.
  if (shorted_ohm > 0) b.add(circuit::Resistor{coil.a, coil.b, shorted_ohm});
  if (lead > 0) b.add(circuit::Resistor{outer, coil.a, lead});
  const circuit::Coil as_built = coil;
  const int number = b.add(std::move(coil));
  return {number, as_built, shorted_ohm, CopperInAir(b, cold_ohm)};
}

double iron_share(const Reader& r, int coil) {
  const circuit::Magnet& m = r.coil(coil).magnet;
  const double full_wb = m.turns * m.pole_area_m2 * m.saturation_t;
  return full_wb > 0 ? std::fabs(r.coil_flux_wb(coil)) / full_wb : 0;
}

double pull_now_n(const Reader& r, int coil) {
  return circuit::pull_n(r.coil(coil).magnet, r.coil_flux_wb(coil));
}

void declare_coil_readings(Declaration& d) {
  d.reading("current", "A", "current through the coil", Lane::kCurve);
  d.reading("volts", "V", "voltage at the coil");
  d.reading("gap", "m", "gap at each pole");
  d.reading("speed", "m/s", "speed of the gap, negative while it closes");
  d.reading("flux_linkage", "Wb", "flux linkage of the coil");
}

double read_coil(const Reader& r, const BuiltCoil& coil, std::size_t reading) {
  switch (reading) {
    case 0: {
      const double beside_a =
          coil.shorted_ohm > 0 ? r.coil_volts(coil.number) / coil.shorted_ohm : 0;
      return r.coil_current_a(coil.number) + beside_a;
    }
    case 1:
      return r.coil_volts(coil.number);
    case 2:
      return r.coil_gap_m(coil.number);
    case 3:
      return r.coil_speed_m_per_s(coil.number);
    default:
      return r.coil_flux_wb(coil.number);
  }
}

void DrivesInVain::held(const circuit::Located& held, SimTime now) {
  const double volts = std::fabs(held.volts);
  const bool goes_on = waiting_ != 0 && now - last_ <= kOneDrive;
  if (!goes_on) {
    judge();
    last_v_ = 0;
  }
  waiting_ = 1;
  last_ = now;
  last_v_ = std::max(last_v_, volts);
  last_needed_v_ = held.needed_v;
}

void DrivesInVain::started(SimTime now) {
  if (now - last_ > kOneDrive) judge();
  waiting_ = 0;
}

void DrivesInVain::judge() {
  if (waiting_ == 0) return;
  ++count_;
  waiting_ = 0;
  const bool first = weak_needed_v_ == 0;
  if (!lacked_volts(last_v_, last_needed_v_) || (!first && last_v_ >= weak_v_)) return;
  weak_v_ = last_v_;
  weak_needed_v_ = last_needed_v_;
}

std::string DrivesInVain::sentence(const std::string& name, const std::string& what) const {
  DrivesInVain all = *this;
  all.judge();
  const std::string often = all.count_ == 1 ? "once" : fmt::format("{} times", all.count_);
  const std::string why =
      all.weak_needed_v_ > 0
          ? fmt::format("{} at its coil where {} were needed", format_quantity(all.weak_v_, "V"),
                        format_quantity(all.weak_needed_v_, "V"))
          : "it was let go too soon";
  return fmt::format("{} was driven {} without {}: {}.", name, often, what, why);
}

void explain_held(const circuit::Located& held, Ctx& ctx) {
  if (!ctx.full_trace()) return;
  const std::array<Condition, 1> conditions = {
      Condition{to_tr("volts at the coil"), held.volts, held.needed_v, false}};
  ctx.because(false, conditions);
}

}  // namespace sixty
