#pragma once

#include <cstddef>
#include <string>
#include <utility>

#include "sim/cli/status_line.hpp"

namespace sixty::cli {

/// Tells how many of many things are done, until this is gone.
class Counted {
 public:
  explicit Counted(std::string what) : what_(std::move(what)), line_(can_show_progress()) {}
  void show(std::size_t done, std::size_t all);
  void clear() { line_.clear(); }

 private:
  std::string what_;
  StatusLine line_;
};

}  // namespace sixty::cli
