#pragma once

#include <cstdint>
#include <memory>

#include "sim/scene/installation.hpp"

namespace sixty::cli {

/// What is known of a run besides what its parts report.
struct RunFacts {
  std::shared_ptr<const Installation> installation;
  SimTime simulated = 0;
  double wall_s = 0;
  std::uint64_t events = 0;
  bool interrupted = false;
};

}  // namespace sixty::cli
