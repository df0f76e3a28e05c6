#include "tests/gui/window_manager.hpp"

#include <X11/Xlib.h>

#include <memory>
#include <span>

namespace sixty::gui {
namespace {

/// Whether the program that made the window wants to be asked.
bool wants_to_be_asked(Display* display, Window window, Atom close) {
  Atom* protocols = nullptr;
  int count = 0;
  if (XGetWMProtocols(display, window, &protocols, &count) == 0) return false;
  bool wants = false;
  for (const Atom protocol : std::span(protocols, static_cast<std::size_t>(count)))
    wants = wants || protocol == close;
  XFree(protocols);
  return wants;
}

}  // namespace

bool ask_to_close(const std::string& display_number) {
  const std::unique_ptr<Display, int (*)(Display*)> display(
      XOpenDisplay((":" + display_number).c_str()), XCloseDisplay);
  if (!display) return false;
  const Atom close = XInternAtom(display.get(), "WM_DELETE_WINDOW", False);
  Window root = 0, parent = 0, *children = nullptr;
  unsigned count = 0;
  if (XQueryTree(display.get(), DefaultRootWindow(display.get()), &root, &parent, &children,
                 &count) == 0)
    return false;
  bool asked = false;
  for (const Window window : std::span(children, count)) {
    XWindowAttributes attributes{};
    if (XGetWindowAttributes(display.get(), window, &attributes) == 0 ||
        attributes.map_state != IsViewable || !wants_to_be_asked(display.get(), window, close))
      continue;
    XEvent event{};
    event.xclient.type = ClientMessage;
    event.xclient.window = window;
    event.xclient.message_type = XInternAtom(display.get(), "WM_PROTOCOLS", False);
    event.xclient.format = 32;
    event.xclient.data.l[0] = static_cast<long>(close);
    XSendEvent(display.get(), window, False, NoEventMask, &event);
    asked = true;
  }
  XFree(children);
  return asked;
}

}  // namespace sixty::gui
