#include "gui/exhibit/world_clock.hpp"

#include <chrono>

namespace sixty::gui {

WorldClock system_world_clock() {
  return {[] {
    return std::chrono::duration_cast<std::chrono::nanoseconds>(
               std::chrono::system_clock::now().time_since_epoch())
        .count();
  }};
}

}  // namespace sixty::gui
