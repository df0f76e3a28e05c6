#pragma once

#include <chrono>

namespace sixty::cli {

/// Wall time since it was made: for people and for progress, never for results.
class Stopwatch {
 public:
  double seconds() const {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - began_).count();
  }

 private:
  std::chrono::steady_clock::time_point began_ = std::chrono::steady_clock::now();
};

}  // namespace sixty::cli
