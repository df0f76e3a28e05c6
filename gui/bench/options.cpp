#include "gui/bench/options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>

#include "sim/base/clock_time.hpp"

namespace sixty::gui {
namespace {

constexpr unsigned kLeastSize = 320, kMostSize = 8192;

bool read_size(const std::string& text, Options& options) {
  return std::sscanf(text.c_str(), "%ux%u", &options.width, &options.height) == 2 &&
         options.width >= kLeastSize && options.height >= kLeastSize &&
         options.width <= kMostSize && options.height <= kMostSize;
}

}  // namespace

bool read_options(int argc, char** argv, Options& options, int& exit_code) {
  CLI::App app("sixtybeats-bench: an installation on the bench, to be looked at while it runs");
  std::string size, seed, theme = "dark";
  app.add_option("SCENE", options.scene, "Scene file (YAML)")->required();
  app.add_option("--fault", options.changes.fault, "Put a fault in, as in `sixtybeats run`");
  app.add_option("--set", options.changes.set, "Change a part's value: PART.VALUE=QUANTITY");
  app.add_option("--do", options.changes.action, "Let a hand act: TIME PART.COMMAND [QUANTITY]");
  app.add_option("--at", options.at, "When to begin: a TIME of the scene");
  app.add_option("--view", options.view, "building, case or part:NAME");
  app.add_option("--size", size, "Size of the window: WIDTHxHEIGHT");
  app.add_option("--theme", theme, "dark or light")->check(CLI::IsMember({"dark", "light"}));
  app.add_option("--screenshot", options.screenshot, "Write one picture to a PNG file, and end");
  app.add_option("--fonts", options.fonts, "Folder with DejaVuSans.ttf and DejaVuSans-Bold.ttf");
  app.add_option("--measure-frames", options.measure_frames,
                 "Draw so many frames, tell how long they took, and end")
      ->check(CLI::Range(1, 100000));
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    exit_code = app.exit(error) == 0 ? 0 : 2;
    return false;
  }
  options.light = theme == "light";
  if (!size.empty() && !read_size(size, options)) {
    fmt::print(stderr,
               "command line: --size: this is no size of a window\n  found:    {}\n"
               "  expected: WIDTHxHEIGHT in pixels, each from {} to {}\n"
               "  mend:     write it like --size 1280x800\n",
               size, kLeastSize, kMostSize);
    exit_code = 2;
    return false;
  }
  return true;
}

Opening open_scene(const Options& options, const Registry& registry, Diagnostics& mistakes) {
  Opening opening;
  opening.installation = load_scene(options.scene, registry, options.changes, mistakes);
  if (!opening.installation || options.at.empty()) return opening;
  Diagnostic mistake;
  const auto at = parse_time(options.at, opening.installation->clock, 0, mistake);
  if (at) {
    opening.at = *at;
  } else {
    mistake.what = "--at: " + mistake.what;
    mistakes.add(mistake);
  }
  return opening;
}

}  // namespace sixty::gui
