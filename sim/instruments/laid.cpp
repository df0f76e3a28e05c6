#include "sim/instruments/laid.hpp"

namespace sixty::instruments {
namespace {

constexpr double kRecorderOhm = 10e6;
constexpr double kClampOhm = 1e-3;  // a clamp round the wire: next to nothing is felt of it

}  // namespace

double recorder_ohm(const Order& order) {
  return order.kind == Order::Kind::kVolts ? kRecorderOhm : kClampOhm;
}

std::shared_ptr<const Hookup> leads_with(const Order& order, double resistance_ohm) {
  Hookup hookup = order.leads;
  hookup.resistance_ohm = resistance_ohm;
  return std::make_shared<const Hookup>(std::move(hookup));
}

Action laying_on(const Order& order, const std::shared_ptr<const Hookup>& leads, SimTime at) {
  Action action;
  action.at = at;
  action.hookup = leads;
  action.text = order.text;
  return action;
}

std::optional<Tapped> tapped_by(const Session& session, const Hookup& leads) {
  // One build serves all hookups that are alike, also those of other times.
  for (const Tapped& t : session.build().tapped) {
    if (t.hookup != nullptr && key_of(*t.hookup) == key_of(leads)) return t;
  }
  return std::nullopt;
}

double value_at(const Tapped& tapped, const Order& order, const Session::CircuitNow& now) {
  const double volts = now.probe.volts(tapped.a, tapped.b);
  return order.kind == Order::Kind::kVolts ? volts : volts * (1 / tapped.hookup->resistance_ohm);
}

}  // namespace sixty::instruments
