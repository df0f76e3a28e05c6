#include "gui/bench/desk.hpp"

namespace sixty::gui {

bool Desk::goes_on() {
  const Runner::Seen now = bench.runner().see();
  return now.running || now.picture != bench.seen().picture ||
         now.failure != bench.seen().failure || strip.is_busy() || why.is_lively() ||
         meters.is_busy() || plot.is_busy() || hunt.is_busy();
}

}  // namespace sixty::gui
