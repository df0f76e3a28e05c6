#pragma once

#include <memory>
#include <optional>

#include "sim/instruments/order.hpp"
#include "sim/run/session.hpp"

namespace sixty::instruments {

/// What an installation feels of a recorder's channel: 10 Mohm between two tips, or a clamp of next
/// to nothing round a wire. Common practice, no source. Range: order.is_electrical().
double recorder_ohm(const Order& order);

/// The leads of an order with that resistance.
std::shared_ptr<const Hookup> leads_with(const Order& order, double resistance_ohm);

/// Lays leads on at an instant.
Action laying_on(const Order& order, const std::shared_ptr<const Hookup>& leads, SimTime at);

/// Where leads are in the session's build; nothing: they are not laid on now.
std::optional<Tapped> tapped_by(const Session& session, const Hookup& leads);

/// Volts between the tips, or the amperes that come through. Range: order.is_electrical().
double value_at(const Tapped& tapped, const Order& order, const Session::CircuitNow& now);

}  // namespace sixty::instruments
