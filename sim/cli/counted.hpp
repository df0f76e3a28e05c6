#pragma once

#include <cstddef>
#include <string>

#include "sim/cli/stopwatch.hpp"

namespace sixty::cli {

/// One line on standard error that tells how many of many things are done; gone when this is.
/// Nothing is told where standard error is no terminal.
class Counted {
 public:
  explicit Counted(std::string what);
  Counted(const Counted&) = delete;
  Counted& operator=(const Counted&) = delete;
  ~Counted() { clear(); }
  void show(std::size_t done, std::size_t all);
  void clear();

 private:
  std::string what_;
  bool wanted_;
  Stopwatch watch_;
  double shown_at_s_ = 0;
  bool shown_ = false;
};

}  // namespace sixty::cli
