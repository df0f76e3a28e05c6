#include "sim/cli/counted.hpp"

#include <fmt/format.h>

#include <cstdio>

#include "sim/cli/progress.hpp"

namespace sixty::cli {
namespace {

constexpr double kInterval_s = 0.2;
constexpr const char* kClearLine = "\r\033[K";

}  // namespace

Counted::Counted(std::string what) : what_(std::move(what)), wanted_(can_show_progress()) {}

void Counted::show(std::size_t done, std::size_t all) {
  const double now_s = watch_.seconds();
  if (!wanted_ || now_s < shown_at_s_ + kInterval_s) return;
  shown_at_s_ = now_s;
  shown_ = true;
  const double left_s =
      now_s * static_cast<double>(all - done) / static_cast<double>(done > 0 ? done : 1);
  fmt::print(stderr, "{}{}: {} of {}, some {:.0f} s to go", kClearLine, what_, done, all, left_s);
  std::fflush(stderr);
}

void Counted::clear() {
  if (shown_) std::fputs(kClearLine, stderr);
  shown_ = false;
}

}  // namespace sixty::cli
