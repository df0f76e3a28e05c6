#pragma once

#include <cstdint>
#include <functional>

namespace sixty::gui {

/// What tells the time of the world: the system's clock, or in a test any other.
struct WorldClock {
  std::function<std::int64_t()> unix_ns;  ///< since 1970-01-01 UTC
  double rate = 1;                        ///< of its seconds to one of the wall
};

WorldClock system_world_clock();

}  // namespace sixty::gui
