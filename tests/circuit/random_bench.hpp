#pragma once

#include <cstdint>

#include "tests/circuit/bench.hpp"

namespace sixty::circuit {

/// What a random network may contain.
struct RandomKinds {
  bool sparks = false;
  bool bounce = false;
  bool friction = false;
  bool remanence = false;
};

/// A network of one or two sources and one to five branches: line, contact, coil, and at random a
/// resistor, a diode or a capacitor across the coil, a capacitor across the contact; the contacts
/// are worked at random instants within 0.4 s. The same for the same seed.
/// `order`: another number declares the same elements in another order.
Bench random_bench(std::uint64_t seed, const RandomKinds& kinds, std::uint64_t order = 0);

/// A line of `count` coils with armatures behind one contact, alike or each with its own
/// tolerances, worked now and then within 3 s: a large network, in which coils meet their stops
/// alone.
Bench random_line(std::uint64_t seed, int count);

}  // namespace sixty::circuit
