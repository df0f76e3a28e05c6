#pragma once

#include <string>

#include "sim/cli/stopwatch.hpp"

namespace sixty::cli {

/// One line on standard error that is written anew now and then; gone when this is. Nothing is
/// written where standard error is no terminal, or nobody wants it.
class StatusLine {
 public:
  explicit StatusLine(bool wanted) : wanted_(wanted) {}
  StatusLine(const StatusLine&) = delete;
  StatusLine& operator=(const StatusLine&) = delete;
  ~StatusLine() { clear(); }
  /// Whether it is time to write. The line is then taken to be written.
  bool is_due();
  /// Since it was made, when it was last due.
  double seconds() const { return due_at_s_; }
  void write(const std::string& text);
  void clear();

 private:
  bool wanted_;
  Stopwatch watch_;
  double due_at_s_ = 0;
  bool shown_ = false;
};

/// Whether standard error is a terminal, on which progress can be shown.
bool can_show_progress();

}  // namespace sixty::cli
