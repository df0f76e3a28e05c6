#include "gui/bench/display.hpp"

#include <X11/Xlib.h>

#include <cstdlib>
#include <memory>
#include <string_view>

namespace sixty::gui {
namespace {

/// Kept for as long as the program runs: a server that starts anew when its last client goes would
/// do so just as the window is opened.
Display* display_of_program() {
  static const std::unique_ptr<Display, int (*)(Display*)> display(XOpenDisplay(nullptr),
                                                                   XCloseDisplay);
  return display.get();
}

}  // namespace

std::string why_no_window() {
  Display* display = display_of_program();
  if (display == nullptr) return "there is no display: run it under a desktop, or with xvfb-run";
  int opcode = 0, event = 0, error = 0;
  if (XQueryExtension(display, "GLX", &opcode, &event, &error) == 0)
    return "the display has no OpenGL (the GLX extension): install its driver";
  return "";
}

double display_scale() {
  constexpr double kUsual_dpi = 96;
  Display* display = display_of_program();
  const char* resources = display == nullptr ? nullptr : XResourceManagerString(display);
  if (resources == nullptr) return 1;
  const std::string_view text(resources), key("Xft.dpi:");
  const std::size_t at = text.find(key);
  if (at == std::string_view::npos) return 1;
  const double dpi = std::strtod(resources + at + key.size(), nullptr);
  return dpi > 0 ? dpi / kUsual_dpi : 1;
}

}  // namespace sixty::gui
