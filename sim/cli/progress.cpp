#include "sim/cli/progress.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>

#include "sim/cli/record_text.hpp"

namespace sixty::cli {
namespace {

constexpr double kInterval_s = 0.2;
constexpr const char* kClearLine = "\r\033[K";

}  // namespace

Progress::Progress(bool wanted, const Installation& installation)
    : wanted_(wanted), clock_(clock_of(installation)) {}

Progress::~Progress() {
  if (shown_) std::fputs(kClearLine, stderr);
}

void Progress::show(SimTime now, SimTime until) {
  if (!wanted_ || watch_.seconds() < shown_at_s_ + kInterval_s) return;
  shown_at_s_ = watch_.seconds();
  shown_ = true;
  const double share = until > 0 ? static_cast<double>(now) / static_cast<double>(until) : 1;
  fmt::print(stderr, "{}{:3.0f} %  {}  {:.0f} s", kClearLine, 100 * share,
             format_iso(clock_, now, 0), shown_at_s_);
  std::fflush(stderr);
}

bool can_show_progress() { return ::isatty(STDERR_FILENO) != 0; }

}  // namespace sixty::cli
