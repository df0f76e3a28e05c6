#pragma once

#include <fmt/format.h>

#include <string>

namespace sixty {

/// A bank or battery with a load behind a key that is closed at first; weather round it.
struct BankScene {
  std::string type;
  std::string sheet;
  std::string set = {};  ///< more values, each with a comma before it
  double load_ohm = 12;
  std::string script = {};
};

inline std::string yaml_of(const BankScene& s) {
  return fmt::format(R"(scene: Cells and a load
start: 2026-01-05T00:00:00
spread: 0
parts:
  weather: {{type: weather}}
  bank: {{type: {}, sheet: {}, set: {{unlike: 0{}}}, connect: {{surroundings: weather.air}}}}
  key: {{type: switch, set: {{contact_resistance: 1 mohm, starts: closed}}}}
  load: {{type: resistor, set: {{resistance: {} ohm}}}}
wires:
  plus: [bank.plus, key.a]
  fed: [key.b, load.a]
  minus: [bank.minus, load.b]
script:
  - at 0 s: weather.temperature 20 degC
{})",
                     s.type, s.sheet, s.set, s.load_ohm, s.script);
}

constexpr double kHourS = 3600;
constexpr double kDayS = 24 * kHourS;
constexpr double kAh = 3600;  ///< A s

}  // namespace sixty
