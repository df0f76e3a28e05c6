#include "sim/cli/scene_input.hpp"

#include <charconv>

#include "sim/base/units.hpp"
#include "sim/cli/command_line.hpp"
#include "sim/cli/record_text.hpp"

namespace sixty::cli {
namespace {

std::optional<std::uint64_t> seed_of(const std::string& text, Diagnostics& mistakes) {
  if (text.empty()) return std::nullopt;
  std::uint64_t seed = 0;
  const char* end = text.data() + text.size();
  const auto [read_to, error] = std::from_chars(text.data(), end, seed);
  if (error == std::errc() && read_to == end) return seed;
  add_mistake(mistakes, "--seed: this is no seed", text,
              "a whole number from 0 to 18446744073709551615", "write digits only");
  return std::nullopt;
}

void add_mistake_of(const std::string& option, const Diagnostic& mistake, Diagnostics& mistakes) {
  add_mistake(mistakes, option + ": " + mistake.what, mistake.found, mistake.expected,
              mistake.mend);
}

}  // namespace

SceneChanges changes_of(const SceneArguments& arguments, Diagnostics& mistakes) {
  SceneChanges changes;
  changes.seed = seed_of(arguments.seed, mistakes);
  changes.set = arguments.set;
  changes.action = arguments.action;
  changes.fault = arguments.fault;
  return changes;
}

std::shared_ptr<const Installation> load_sound(const SceneArguments& arguments,
                                               const Registry& registry, Diagnostics& mistakes) {
  Diagnostics told;  // by load()
  SceneChanges changes = changes_of(arguments, told);
  changes.sound = true;
  return load_scene(arguments.path, registry, changes, mistakes);
}

std::shared_ptr<const Installation> load(const SceneArguments& arguments, const Registry& registry,
                                         Diagnostics& mistakes) {
  const SceneChanges changes = changes_of(arguments, mistakes);
  return load_scene(arguments.path, registry, changes, mistakes);
}

std::optional<SimTime> duration_of(const std::string& option, const std::string& text,
                                   Diagnostics& mistakes) {
  if (text.empty()) return std::nullopt;
  Diagnostic mistake;
  const std::optional<SimTime> duration = parse_duration(text, mistake);
  if (!duration) add_mistake_of(option, mistake, mistakes);
  return duration.value_or(0);
}

std::optional<SimTime> time_of(const std::string& option, const std::string& text,
                               const CivilClock& clock, SimTime from, Diagnostics& mistakes) {
  if (text.empty()) return std::nullopt;
  Diagnostic mistake;
  const std::optional<SimTime> time = parse_time(text, clock, from, mistake);
  if (!time) add_mistake_of(option, mistake, mistakes);
  return time.value_or(0);
}

std::optional<std::uint64_t> count_of(const std::string& option, const std::string& text,
                                      std::uint64_t least, std::uint64_t most,
                                      Diagnostics& mistakes) {
  if (text.empty()) return std::nullopt;
  std::uint64_t count = 0;
  const char* end = text.data() + text.size();
  const auto [read_to, error] = std::from_chars(text.data(), end, count);
  if (error == std::errc() && read_to == end && count >= least && count <= most) return count;
  add_mistake(mistakes, option + ": this is no number for it", text,
              "a whole number from " + std::to_string(least) + " to " + std::to_string(most),
              "write digits only");
  return std::nullopt;
}

std::optional<double> share_of(const std::string& option, const std::string& text,
                               Diagnostics& mistakes) {
  if (text.empty()) return std::nullopt;
  Diagnostic mistake;
  const std::optional<double> share = parse_quantity(text, "1", mistake);
  if (!share) {
    add_mistake_of(option, mistake, mistakes);
  } else if (*share < 0 || *share > 1) {
    add_mistake(mistakes, option + ": so large a share cannot be", text, "from 0 % to 100 %",
                "write a smaller one");
  }
  return share;
}

void check_actions(const Installation& installation, SimTime until, Diagnostics& mistakes) {
  const CivilClock& clock = clock_of(installation);
  for (const Action& action : installation.script) {
    if (!action.added || action.at <= until) continue;
    const bool fault = action.fault != nullptr;
    add_mistake(mistakes,
                fault ? "--fault: the run ends before this is put in or cleared"
                      : "--do: the run ends before this hand acts",
                format_iso(clock, action.at, kExactFraction) + " " + action.text,
                "a time up to the run's end, " + format_iso(clock, until, kExactFraction),
                "choose an earlier time, or let the run go on for longer");
  }
}

}  // namespace sixty::cli
