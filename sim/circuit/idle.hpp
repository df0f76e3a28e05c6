#pragma once

#include <memory>
#include <vector>

#include "sim/circuit/state.hpp"

namespace sixty::circuit {

/// What nothing can reach whatever the armatures do, as long as the commands stay: contacts and
/// diodes in ways that end nowhere, coils that lie open behind them, wires between. What lies
/// behind an armature at rest is such. It is left out before a stretch is looked for, so that the
/// same is found whatever lies idle meanwhile, and put back where the stretch is left.
struct Idle {
  std::vector<std::size_t> contacts, coils, resistors, diodes;
  std::shared_ptr<const Network> of;  ///< the whole; set where one has been left out of it
  bool empty() const {
    return contacts.empty() && coils.empty() && resistors.empty() && diodes.empty();
  }
  std::uint64_t hash() const;
};

Idle find_idle(const Network& network, const Inputs& inputs, const State& state);
/// The rest, each part under the number that it has in the whole, but for the resistors: nobody
/// asks for these by number. Equal for networks that differ in what lies idle only.
Network without(const Network& network, const Idle& idle);
/// Makes idle contacts open ones, and idle coils such as never carried anything.
void set_aside(const Idle& idle, State& state);
void set_aside(const Idle& idle, Inputs& inputs);
/// Makes them again what they are in `before`; once all has `settled` no film is felt any more.
/// `network`: the whole.
void put_back(const Network& network, const Idle& idle, const State& before, bool settled,
              State& state);

}  // namespace sixty::circuit
