#include "gui/bench/display.hpp"

#include <X11/Xlib.h>

#include <memory>

namespace sixty::gui {

std::string why_no_window() {
  // Kept for as long as the program runs: a server that starts anew when its last client goes
  // would do so just as the window is opened.
  static const std::unique_ptr<Display, int (*)(Display*)> display(XOpenDisplay(nullptr),
                                                                   XCloseDisplay);
  if (!display) return "there is no display: run it under a desktop, or with xvfb-run";
  int opcode = 0, event = 0, error = 0;
  if (XQueryExtension(display.get(), "GLX", &opcode, &event, &error) == 0)
    return "the display has no OpenGL (the GLX extension): install its driver";
  return "";
}

}  // namespace sixty::gui
