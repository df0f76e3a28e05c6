#include "sim/cli/interrupt.hpp"

#include <csignal>

#include "sim/base/ending.hpp"

namespace sixty::cli {

void watch_for_interrupts() {
  watch_for_end();
  std::signal(SIGXFSZ, SIG_IGN);
}

bool interrupted() { return is_asked_to_end(); }

void end_if_interrupted() {
  if (interrupted()) throw Interrupted{};
}

}  // namespace sixty::cli
