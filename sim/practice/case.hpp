#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim/diagnose/library.hpp"
#include "sim/diagnose/observation.hpp"
#include "sim/explain/link.hpp"

namespace sixty::practice {

/// How hard a hidden fault is to find.
enum class Level : std::uint8_t {
  kObvious,       ///< one, at its worst: much is to be noticed
  kSubtle,        ///< one, so faint that little is
  kIntermittent,  ///< one that comes and goes
  kTwo,           ///< two at once
  kHands          ///< something that hands did wrong
};
constexpr std::size_t kLevels = 5;
/// "obvious", "subtle", "intermittent", "two", "hands".
const char* name_of(Level level);
std::optional<Level> level_named(const std::string& name);

/// A fault, and the way in which it is there.
struct Hidden {
  std::size_t suspect = 0;
  diagnose::Manner manner;
};

/// What is the matter with an installation, unknown to who is to find it.
struct Case {
  Level level = Level::kObvious;
  std::uint64_t seed = 0;
  std::vector<Hidden> hidden;
  std::vector<float> departures;               ///< of all signs in all spans
  std::vector<diagnose::Observation> reports;  ///< what people tell of it by themselves
};

/// What would be noticed of the library's own installation with these faults in it.
std::vector<float> noticed_of(const diagnose::Library& library, const std::vector<Hidden>& hidden);
/// What people tell of that.
std::vector<diagnose::Observation> told_of(const diagnose::Library& library, const Case& hidden);

/// Why a run with these faults first went otherwise than a sound one, within the library's watch:
/// from what was seen to what is behind it.
std::vector<explain::Link> why_of(const diagnose::Library& library,
                                  const std::vector<Hidden>& hidden);

/// Draws one by the faults' priors. The same for the same seed and library. Errors: nothing, where
/// no fault of that level shows anything. Order: the library is filled.
std::optional<Case> draw_case(const diagnose::Library& library, Level level, std::uint64_t seed);

}  // namespace sixty::practice
