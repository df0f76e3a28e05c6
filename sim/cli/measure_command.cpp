#include <algorithm>

#include "sim/base/clock_time.hpp"
#include "sim/cli/answer_view.hpp"
#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/record_text.hpp"
#include "sim/cli/scene_input.hpp"

namespace sixty::cli {
namespace {

using instruments::Order;
using instruments::Window;

constexpr SimTime kAtOnce = 2 * kSecond;  // an instant alone: so long a meter needs to settle
constexpr SimTime kSamples = 2000;        // of a recorder to whose interval nobody said anything
constexpr SimTime kLongest = kWeek;
constexpr SimTime kShortest = 2 * kMillisecond;  // two of a digital meter's short means

/// Errors: reported, also where the end was meant to be before the beginning, and would be next
/// week's.
void read_end(const std::string& text, const CivilClock& clock, Window& window,
              Diagnostics& mistakes) {
  const auto end = time_of("--during", text, clock, window.from, mistakes);
  if (!end) return;
  window.to = *end;
  const bool earlier = time_of("--during", text, clock, 0, mistakes).value_or(*end) <= window.from;
  if (earlier && window.to - window.from > kWeek / 2)
    add_mistake(mistakes, "--during: ends before it begins", text,
                "a later instant behind the dots", "put the earlier one first");
}

/// Reads "TIME..TIME", or a TIME that is looked at for two seconds. Errors: reported.
Window window_of(const MeasureArguments& arguments, const CivilClock& clock,
                 Diagnostics& mistakes) {
  Window window;
  const std::string& text = arguments.during;
  if (text.empty()) {
    add_mistake(mistakes, "--during: when to measure is not said", "", "TIME..TIME, or a TIME",
                "write it like --during \"Mon 08:00..Mon 08:02\"");
    return window;
  }
  const std::size_t dots = text.find("..");
  window.from = time_of("--during", text.substr(0, dots), clock, 0, mistakes).value_or(0);
  window.to = window.from + kAtOnce;
  if (dots != std::string::npos) read_end(text.substr(dots + 2), clock, window, mistakes);
  if (mistakes.empty() && (window.to <= window.from || window.to - window.from > kLongest))
    add_mistake(mistakes, "--during: this is no span to measure in", text,
                "a later instant behind the dots, within a week", "put the earlier one first");
  return window;
}

/// A digital meter has shown nothing yet before its first short mean is done.
void check_meters_can_show(const std::vector<Order>& orders, const Window& window,
                           Diagnostics& mistakes) {
  const bool digital = std::any_of(orders.begin(), orders.end(),
                                   [](const Order& o) { return o.is_meter() && !o.needle; });
  if (!digital || window.to - window.from >= kShortest) return;
  add_mistake(mistakes, "--during: too short for a digital meter to show anything",
              format_duration(window.to - window.from), format_duration(kShortest) + " at least",
              "measure for longer, or use a recorder");
}

void read_interval(const MeasureArguments& arguments, Window& window, Diagnostics& mistakes) {
  window.every = std::max<SimTime>((window.to - window.from) / kSamples, 1);
  const auto every = duration_of("--sample", arguments.sample, mistakes);
  if (!every) return;
  window.every = *every;
  const auto most = static_cast<SimTime>(instruments::Recorder::kMostSamples);
  if (mistakes.empty() && (*every <= 0 || (window.to - window.from) / *every > most))
    add_mistake(mistakes, "--sample: too many samples, or none", arguments.sample,
                "an interval that gives a million of them at most",
                "choose a longer interval, or a shorter --during");
}

std::vector<Order> orders_of(const MeasureArguments& arguments, const Installation& scene,
                             Diagnostics& diagnostics) {
  Mistakes mistakes(diagnostics);
  std::vector<Order> orders;
  if (arguments.meters.empty())
    add_mistake(diagnostics, "--meter: what to measure is not said", "", "V:WHERE, listen:PART ...",
                "see sixtybeats measure --help");
  for (const std::string& text : arguments.meters) {
    if (const auto order = instruments::read_order(text, scene, mistakes)) orders.push_back(*order);
  }
  instruments::check_orders(orders, scene, mistakes);
  return orders;
}

}  // namespace

int measure_command(const MeasureArguments& arguments, const Registry& registry) {
  Diagnostics mistakes;
  const auto scene = load(arguments.scene, registry, mistakes);
  if (!scene) return refuse(mistakes);
  Measurement m{*scene,
                orders_of(arguments, *scene, mistakes),
                window_of(arguments, clock_of(*scene), mistakes),
                {}};
  if (mistakes.empty()) read_interval(arguments, m.window, mistakes);
  if (mistakes.empty()) check_meters_can_show(m.orders, m.window, mistakes);
  if (mistakes.empty()) check_actions(*scene, m.window.to, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  m.answers = instruments::measure(scene, m.orders, m.window);
  print(arguments.json ? answers_json(m) : answers_text(m, arguments.truth));
  return kOk;
}

}  // namespace sixty::cli
