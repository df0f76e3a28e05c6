#pragma once

#include <fmt/format.h>

#include <string>

namespace sixty {

/// A supply of 24 V and a key that closes at 1 s; `parts` hang behind it, in wires of their own.
/// Terminals are added to the three wires with a comma before each (", bell.plus").
struct KeyedScene {
  std::string parts = {};
  std::string fed = {};    ///< behind the key
  std::string minus = {};  ///< at the supply's other terminal
  std::string plus = {};   ///< before the key
  std::string wires = {};
  std::string script = {};
  std::string head = "spread: 0";
};

inline std::string yaml_of(const KeyedScene& s) {
  return fmt::format(R"(scene: Parts behind a key
start: 2026-01-05T00:00:00
{}
parts:
  supply: {{type: supply, sheet: bench_24v}}
  key: {{type: switch, set: {{contact_resistance: 1 mohm}}}}
{}wires:
  plus: [supply.plus, key.a{}]
  fed: [key.b{}]
  minus: [supply.minus{}]
{}script:
  - at 1 s: key.close
{})",
                     s.head, s.parts, s.plus, s.fed, s.minus, s.wires, s.script);
}

}  // namespace sixty
