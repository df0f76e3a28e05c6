#include "sim/cli/status_line.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>

namespace sixty::cli {
namespace {

constexpr double kInterval_s = 0.2;
constexpr const char* kClearLine = "\r\033[K";

}  // namespace

bool StatusLine::is_due() {
  const double now_s = watch_.seconds();
  if (!wanted_ || now_s < due_at_s_ + kInterval_s) return false;
  due_at_s_ = now_s;
  return true;
}

void StatusLine::write(const std::string& text) {
  shown_ = true;
  fmt::print(stderr, "{}{}", kClearLine, text);
  std::fflush(stderr);
}

void StatusLine::clear() {
  if (shown_) std::fputs(kClearLine, stderr);
  shown_ = false;
}

bool can_show_progress() { return ::isatty(STDERR_FILENO) != 0; }

}  // namespace sixty::cli
