#include <fmt/format.h>

#include <SFML/System/Err.hpp>

#include <iostream>
#include <stdexcept>

#include "gui/bench/display.hpp"
#include "gui/bench/options.hpp"
#include "gui/bench/window.hpp"
#include "gui/exhibit/run_exhibit.hpp"
#include "gui/staff/pin.hpp"
#include "models/part_list.hpp"
#include "sim/base/ending.hpp"
#include "sim/words/words.hpp"

namespace {

// A picture after half a second is at once. The window itself takes a good part of that, and what
// is waited for here goes on beside its opening only so long.
constexpr double kPatience_s = 0.05;

enum ExitCode : int { kBadInput = 2, kNoWindow = 3 };

int no_window(const std::string& why) {
  fmt::print(stderr, "sixtybeats-bench: {}\n", why);
  return kNoWindow;
}

int exhibit(const sixty::gui::Options& options, const sixty::Registry& registry) {
  using namespace sixty;
  if (const std::string why = gui::why_no_window(); !why.empty()) return no_window(why);
  watch_for_end();
  Diagnostics mistakes;
  try {
    const int code = gui::run_exhibit(options, registry, mistakes);
    if (!mistakes.empty()) fmt::print(stderr, "{}", mistakes.to_text());
    return code;
  } catch (const std::runtime_error& error) {
    return no_window(error.what());
  }
}

}  // namespace

int main(int argc, char** argv) {
  using namespace sixty;
  // What the window library says by itself helps nobody; what matters is told by us.
  sf::err().rdbuf(nullptr);
  gui::Options options;
  Diagnostics mistakes;
  if (const auto exit_code = gui::read_options(argc, argv, options, mistakes)) return *exit_code;
  if (options.makes_pin) return gui::make_pin(std::cin, std::cout);
  if (!options.language.empty()) speak(*find_language(options.language));
  const Registry registry = models::registry();
  if (!options.exhibit.empty()) return exhibit(options, registry);
  gui::Opening opening = gui::open_scene(options, registry, mistakes);
  if (!mistakes.empty()) {
    fmt::print(stderr, "{}", mistakes.to_text());
    return kBadInput;
  }
  if (const std::string why = gui::why_no_window(); !why.empty()) return no_window(why);
  watch_for_end();
  // Pictures that are kept show the time that was asked for; a person sees at once how it gets
  // there.
  if (options.screenshot.empty() && options.film.folder.empty()) opening.patience_s = kPatience_s;
  try {
    return gui::Window(options, opening, registry).run();
  } catch (const std::runtime_error& error) {
    return no_window(error.what());
  }
}
