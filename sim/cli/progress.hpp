#pragma once

#include "sim/base/clock_time.hpp"
#include "sim/cli/status_line.hpp"
#include "sim/scene/installation.hpp"

namespace sixty::cli {

/// Tells how far a long run has come, until this is gone.
class Progress {
 public:
  Progress(bool wanted, const Installation& installation);
  void show(SimTime now, SimTime until);

 private:
  CivilClock clock_;
  StatusLine line_;
};

}  // namespace sixty::cli
