#pragma once

#include <cstdint>

namespace sixty::diagnose {

/// A hash of all sources of this build that a run's result depends on, the parts' data among them:
/// the same in every program of one build.
std::uint64_t program_fingerprint();

}  // namespace sixty::diagnose
