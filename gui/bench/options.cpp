#include "gui/bench/options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>

#include "sim/base/clock_time.hpp"

namespace sixty::gui {
namespace {

constexpr unsigned kLeastSize = 320, kMostSize = 8192;

void read_size(Options& options, Diagnostics& mistakes) {
  if (options.size.empty()) return;
  char rest = 0;
  const int read =
      std::sscanf(options.size.c_str(), "%ux%u%c", &options.width, &options.height, &rest);
  const auto fits = [](unsigned side) { return side >= kLeastSize && side <= kMostSize; };
  if (read == 2 && fits(options.width) && fits(options.height)) return;
  Diagnostic mistake;
  mistake.what = "--size: this is no size of a window";
  mistake.found = options.size;
  mistake.expected =
      fmt::format("WIDTHxHEIGHT in pixels, each from {} to {}", kLeastSize, kMostSize);
  mistake.mend = "write it like --size 1280x800";
  mistakes.add(mistake);
}

void read_view(const Options& options, Opening& opening, Diagnostics& mistakes) {
  const std::string part = "part:";
  if (options.view == "case") return;
  if (options.view == "building") {
    opening.view = View::kBuilding;
    return;
  }
  if (options.view.rfind(part, 0) == 0) {
    opening.view = View::kPart;
    opening.part = opening.installation->find_id(options.view.substr(part.size()));
    if (opening.part) return;
  }
  Diagnostic mistake;
  mistake.what = "--view: there is nothing of that name to look at";
  mistake.found = options.view;
  mistake.expected = "building, case, or part:NAME with the name of a part of the scene";
  mistake.mend = "see the names in " + options.scene;
  mistakes.add(mistake);
}

void read_at(const Options& options, Opening& opening, Diagnostics& mistakes) {
  if (options.at.empty()) return;
  Diagnostic mistake;
  const auto at = parse_time(options.at, opening.installation->clock, 0, mistake);
  opening.at = at.value_or(0);
  if (at) return;
  mistake.what = "--at: " + mistake.what;
  mistakes.add(mistake);
}

}  // namespace

std::optional<int> read_options(int argc, char** argv, Options& options, Diagnostics& mistakes) {
  CLI::App app("sixtybeats-bench: an installation on the bench, to be looked at while it runs");
  app.add_option("SCENE", options.scene, "Scene file (YAML)")->required();
  app.add_option("--fault", options.changes.fault, "Put a fault in, as in `sixtybeats run`");
  app.add_option("--set", options.changes.set, "Change a part's value: PART.VALUE=QUANTITY");
  app.add_option("--do", options.changes.action, "Let a hand act: TIME PART.COMMAND [QUANTITY]");
  app.add_option("--at", options.at, "When to begin: a TIME of the scene");
  app.add_option("--view", options.view, "building, case or part:NAME");
  app.add_option("--size", options.size, "Size of the window: WIDTHxHEIGHT");
  app.add_option("--theme", options.theme, "dark or light")
      ->check(CLI::IsMember({"dark", "light"}));
  app.add_option("--screenshot", options.screenshot, "Write one picture to a PNG file, and end");
  app.add_option("--fonts", options.fonts, "Folder with DejaVuSans.ttf and DejaVuSans-Bold.ttf");
  app.add_option("--measure-frames", options.measure_frames,
                 "Draw so many frames, tell how long they took, and end")
      ->check(CLI::Range(1, 100000));
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : 2;
  }
  options.light = options.theme == "light";
  read_size(options, mistakes);
  return std::nullopt;
}

Opening open_scene(const Options& options, const Registry& registry, Diagnostics& mistakes) {
  Opening opening;
  opening.installation = load_scene(options.scene, registry, options.changes, mistakes);
  if (!opening.installation) return opening;
  SceneChanges sound = options.changes;
  sound.sound = true;
  opening.sound = load_scene(options.scene, registry, sound, mistakes);
  read_at(options, opening, mistakes);
  read_view(options, opening, mistakes);
  return opening;
}

}  // namespace sixty::gui
