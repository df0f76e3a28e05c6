#include "sim/base/file.hpp"
#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/scene_input.hpp"
#include "sim/diagnose/once.hpp"
#include "sim/diagnose/report.hpp"

namespace sixty::cli {
namespace {

// None of the library's own.
constexpr std::uint64_t kFirstSpecimen = 1'000'000'000, kSpecimensApart = 1000;
constexpr std::uint64_t kSpecimens = 1'000'000'000;

diagnose::Telling telling_of(const std::string& noise, Diagnostics& mistakes) {
  diagnose::Telling telling;
  if (noise == "heavy") {
    telling.wrong = telling.left_out = 0.12;
  } else if (!noise.empty() && noise != "light") {
    add_unknown(mistakes, "--report-noise: there is no such noise", noise, {"light", "heavy"});
  }
  return telling;
}

std::vector<float> departures_of(const SceneArguments& arguments, const Specimen& specimen,
                                 const diagnose::Library& library,
                                 const std::vector<diagnose::Usual>& usual,
                                 const Registry& registry, Diagnostics& mistakes) {
  SceneChanges changes = changes_of(arguments, mistakes);
  changes.seed = std::nullopt;  // it chooses the specimen, not the scene's own draws
  changes.specimen = specimen;
  changes.begins_on = diagnose::kSunday;
  const auto installation = load_scene(arguments.path, registry, changes, mistakes);
  if (!installation) return {};
  Session session(installation);
  return diagnose::departures(diagnose::watch_and_try(session, library.signs, usual, library.watch),
                              usual, library.signs);
}

}  // namespace

int observe_command(const ObserveArguments& arguments, const Registry& registry) {
  Diagnostics mistakes;
  Mistakes reading(mistakes);
  const diagnose::SignBook signs(registry, reading);
  const FaultBook faults(registry, reading);
  diagnose::LibraryPlan plan;
  plan.path = arguments.scene.path;
  plan.changes = changes_of(arguments.scene, mistakes);
  plan.changes.seed = std::nullopt;
  plan.changes.fault.clear();
  const std::uint64_t seed =
      count_of("--seed", arguments.scene.seed, 0, UINT64_MAX, mistakes).value_or(1);
  plan.vary = share_of("--vary", arguments.vary, mistakes).value_or(plan.vary);
  const diagnose::Telling telling = telling_of(arguments.noise, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  const auto library = diagnose::open_library(plan, registry, signs, faults, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  diagnose::find_usual(*library, plan, registry);
  const std::uint64_t first = kFirstSpecimen + seed % kSpecimens * kSpecimensApart;
  const auto specimens = diagnose::specimens_of(*library, plan, first, 1, registry);
  const std::vector<float> departures = departures_of(
      arguments.scene, {specimens.numbers.front(), plan.vary}, *library,
      specimens.known(library->usual, library->signs).front().usual, registry, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  const auto told = diagnose::reports_of(*library, departures, telling, seed, 0);
  const std::string text = diagnose::observations_text(
      told, library->signs, library->installation->name, *library->installation);
  if (arguments.out.empty()) {
    print(text);
    return kOk;
  }
  std::string error;
  if (write_file_whole(arguments.out, text, error)) return kOk;
  complain("could not write " + arguments.out + ": " + error + "\n");
  return kCouldNotWrite;
}

}  // namespace sixty::cli
