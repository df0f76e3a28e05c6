#pragma once

#include <cstdint>

namespace sixty {

/// Number of a part in its installation.
using PartId = std::uint32_t;

/// A wound drive: torque in proportion to how far it is wound, counted in whole steps of whatever
/// it drives. The offering part winds it, the taking part unwinds it; whoever sees it sees both.
struct Drive {
  static constexpr const char* kKind = "drive";
  std::int64_t steps = 0;         ///< wound, > = 0
  double torque_per_step_nm = 0;  ///< at the drive's own arbor
};

/// A shaft that turns in whole steps; others ride on it and are told when their place comes.
struct Shaft {
  static constexpr const char* kKind = "shaft";
  std::int64_t position = 0;  ///< steps since the scene began
  std::int64_t steps_per_turn = 0;
};

/// What rides on a shaft: acts at two places of each turn, and drags between them.
struct Rider {
  PartId part = 0;
  std::int64_t make_at = 0;  ///< step of the turn, 0 .. steps_per_turn - 1
  std::int64_t break_at = 0;
  double drag_nm = 0;  ///< while in between
};

}  // namespace sixty
