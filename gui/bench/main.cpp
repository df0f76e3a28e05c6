#include <fmt/format.h>

#include "gui/bench/display.hpp"
#include "gui/bench/options.hpp"
#include "gui/bench/window.hpp"
#include "models/part_list.hpp"

int main(int argc, char** argv) {
  using namespace sixty;
  gui::Options options;
  int exit_code = 0;
  if (!gui::read_options(argc, argv, options, exit_code)) return exit_code;
  const Registry registry = models::registry();
  Diagnostics mistakes;
  const gui::Opening opening = gui::open_scene(options, registry, mistakes);
  if (!mistakes.empty() || !opening.installation) {
    fmt::print(stderr, "{}", mistakes.to_text());
    return 2;
  }
  if (const std::string why = gui::why_no_window(); !why.empty()) {
    fmt::print(stderr, "sixtybeats-bench: {}\n", why);
    return 3;
  }
  gui::Window window(options, opening, registry);
  return window.run();
}
