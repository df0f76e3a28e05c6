#pragma once

#include <fmt/format.h>

#include <string>

#include "tests/models/bench_minimal.hpp"

namespace sixty {

/// The master of the smallest installation with tape, week wheel, timetable and four zone relays in
/// place of its clocks and bell. Lists are YAML, as behind their key.
struct ProgramScene {
  std::string start = "2026-01-05T00:00:00";
  std::string tape = "";    ///< lines of `set:` of the tape, eight blanks before each
  std::string pins = "[]";  ///< of the week wheel
  std::string rings = "[]";
  bool full_minute = false;      ///< the drum is fed without the ring-timing contact
  std::string second_tape = "";  ///< as `tape`, of one more on the same drive; its zone is number 5
  std::string script = "";
};

inline std::string second_parts(const ProgramScene& s) {
  if (s.second_tape.empty()) return "";
  return fmt::format(R"(  second_tape:
    type: tape
    sheet: paper_day
    set:
{}    connect: {{step: rewind.tape_row}}
  relay_5: {{type: relay, sheet: zone_relay}}
)",
                     s.second_tape);
}

inline std::string zone_wires(bool second) {
  std::string wires;
  for (int zone = 1; zone <= 4; ++zone) {
    wires += fmt::format("  finger_{0}: [tape.finger_{0}, week_wheel.zone_{0}_a]\n", zone);
    wires += fmt::format("  pinned_{0}: [week_wheel.zone_{0}_b, relay_{0}.coil_a]\n", zone);
  }
  if (second) {
    wires +=
        "  finger_5: [second_tape.finger_1, week_wheel.zone_5_a]\n"
        "  pinned_5: [week_wheel.zone_5_b, relay_5.coil_a]\n";
  }
  return wires;
}

inline std::string yaml_of(const ProgramScene& s) {
  const std::string bench = bench_minimal();
  std::string master = bench.substr(0, bench.find("  minute_relay:"));
  const std::string start = "2026-01-05T00:00:00";
  master.replace(master.find(start), start.size(), s.start);
  const bool second = !s.second_tape.empty();
  return master +
         fmt::format(R"(
  relay_1: {{type: relay, sheet: zone_relay}}
  relay_2: {{type: relay, sheet: zone_relay}}
  relay_3: {{type: relay, sheet: zone_relay}}
  relay_4: {{type: relay, sheet: zone_relay}}
  tape:
    type: tape
    sheet: paper_day
    set:
{tape}    connect: {{step: rewind.tape_row}}
  week_wheel:
    type: week_wheel
    sheet: fourteen_places
    set:
      zones: 8
      pins: {pins}
    connect: {{step: tape.half_day}}
{second_parts}  timetable:
    type: timetable
    set:
      rings: {rings}
    connect:
      zone_1: relay_1.pulled
      zone_2: relay_2.pulled
      zone_3: relay_3.pulled
      zone_4: relay_4.pulled
{second_links}      paper: tape.paper
      pins: week_wheel.pins_set
wires:
  plus: [supply.plus, arm_a.blade, ring_timing.blade{feed}]
  minus: [supply.minus, rewind.minus, relay_1.coil_b, relay_2.coil_b, relay_3.coil_b,
          relay_4.coil_b{second_minus}]
  rewind_feed: [arm_a.anvil, rewind.plus]
{timed}{zones}script:
  - at 306 ms: movement.start 1.75 deg
{script})",
                     fmt::arg("tape", s.tape.empty() ? "      columns: 4\n" : s.tape),
                     fmt::arg("pins", s.pins), fmt::arg("second_parts", second_parts(s)),
                     fmt::arg("rings", s.rings),
                     fmt::arg("second_links", second ? "      zone_5: relay_5.pulled\n"
                                                       "      second_paper: second_tape.paper\n"
                                                     : ""),
                     fmt::arg("feed", s.full_minute ? std::string(", tape.drum") +
                                                          (second ? ", second_tape.drum" : "")
                                                    : ""),
                     fmt::arg("second_minus", second ? ", relay_5.coil_b" : ""),
                     fmt::arg("timed", s.full_minute ? ""
                                       : second      ? "  timed: [ring_timing.anvil, tape.drum, "
                                                       "second_tape.drum]\n"
                                                     : "  timed: [ring_timing.anvil, tape.drum]\n"),
                     fmt::arg("zones", zone_wires(second)), fmt::arg("script", s.script));
}

}  // namespace sixty
