#include "sim/cli/scene_input.hpp"

#include <charconv>

#include "sim/cli/command_line.hpp"

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

}  // namespace

std::shared_ptr<const Installation> load(const SceneArguments& arguments, const Registry& registry,
                                         Diagnostics& mistakes) {
  SceneChanges changes;
  changes.seed = seed_of(arguments.seed, mistakes);
  changes.set = arguments.set;
  changes.action = arguments.action;
  return load_scene(arguments.path, registry, changes, mistakes);
}

std::optional<SimTime> duration_of(const std::string& option, const std::string& text,
                                   Diagnostics& mistakes) {
  if (text.empty()) return std::nullopt;
  std::string error;
  const std::optional<SimTime> duration = parse_duration(text, error);
  if (!duration) add_mistake(mistakes, option + ": " + error, text, "", "");
  return duration.value_or(0);
}

std::optional<SimTime> time_of(const std::string& option, const std::string& text,
                               const CalendarTime& start, SimTime from, Diagnostics& mistakes) {
  if (text.empty()) return std::nullopt;
  std::string error;
  const std::optional<SimTime> time = parse_time(text, start, from, error);
  if (!time) add_mistake(mistakes, option + ": " + error, text, "", "");
  return time.value_or(0);
}

}  // namespace sixty::cli
