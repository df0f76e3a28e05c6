#include "gui/exhibit/run_exhibit.hpp"

#include <optional>
#include <utility>

#include "gui/exhibit/exhibit_window.hpp"

namespace sixty::gui {
namespace {

/// The system's clock, or one that goes on from what the command line says.
std::optional<WorldClock> world_clock(const Options& options, const exhibit::Exhibit& exhibit,
                                      Diagnostics& mistakes) {
  WorldClock system = system_world_clock();
  if (options.clock.empty()) return system;
  Diagnostic mistake;
  std::string error;
  const auto begins = parse_calendar_time(options.clock, error);
  if (!begins) {
    mistake.what = "--clock: " + error;
    mistake.found = options.clock;
    mistake.mend = "write date and time, 2026-12-01T10:15";
    mistakes.add(mistake);
    return std::nullopt;
  }
  const TimeZone zone = exhibit::zone_of(exhibit);
  const std::int64_t now = system.unix_ns();
  const SimTime off = exhibit::between(zone.local(now), *begins);
  return WorldClock{[now = std::move(system.unix_ns), off] { return now() + off; }};
}

}  // namespace

int run_exhibit(const Options& options, const Registry& registry, Diagnostics& mistakes) {
  constexpr int kRefused = 2;
  const exhibit::Opened opened = exhibit::open_exhibit(options.exhibit, registry, mistakes);
  if (opened.exhibit == nullptr) return kRefused;
  const auto clock = world_clock(options, *opened.exhibit, mistakes);
  if (!clock) return kRefused;
  // A picture or a measurement is no day among visitors: it leaves nothing behind.
  const bool is_shown = options.screenshot.empty() && options.measure_frames == 0;
  const bool whole = options.size.empty() && options.screenshot.empty();
  const ExhibitOptions wanted{whole ? 0 : options.width,
                              options.height,
                              options.fonts,
                              options.screenshot,
                              options.piece,
                              options.measure_frames,
                              is_shown ? state_environment() : StateEnvironment{}};
  return ExhibitWindow(wanted, opened, *clock).run();
}

}  // namespace sixty::gui
