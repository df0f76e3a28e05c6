#pragma once

#include "sim/base/clock_time.hpp"
#include "sim/cli/stopwatch.hpp"
#include "sim/scene/installation.hpp"

namespace sixty::cli {

/// One line on standard error that tells how far a long run has come; gone when this is.
class Progress {
 public:
  Progress(bool wanted, const Installation& installation);
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;
  ~Progress();
  void show(SimTime now, SimTime until);

 private:
  bool wanted_;
  CivilClock clock_;
  Stopwatch watch_;
  double shown_at_s_ = 0;
  bool shown_ = false;
};

/// Whether standard error is a terminal, on which progress can be shown.
bool can_show_progress();

}  // namespace sixty::cli
