#pragma once

#include <vector>

#include "sim/circuit/state.hpp"

namespace sixty::circuit {

/// What nothing can reach whatever the armatures do, as long as the commands stay: closed contacts
/// in ways that end nowhere, and coils that lie open behind them. A finger in its hole between two
/// rings is such a contact. It is set aside before a stretch is looked for, so that the same is
/// found whatever lies idle meanwhile, and put back where the stretch is left.
struct Idle {
  std::vector<std::size_t> contacts, coils;
  bool empty() const { return contacts.empty() && coils.empty(); }
};

Idle find_idle(const Network& network, const Inputs& inputs, const State& state);
/// Makes idle contacts open ones, and idle coils such as never carried anything.
void set_aside(const Network& network, const Idle& idle, State& state, Inputs& inputs);
/// Makes them again what they are in `before`; once all has `settled` no film is felt any more.
void put_back(const Network& network, const Idle& idle, const State& before, bool settled,
              State& state);

}  // namespace sixty::circuit
