#include "sim/cli/interrupt.hpp"

#include <csignal>

namespace sixty::cli {
namespace {

volatile std::sig_atomic_t g_interrupted = 0;

void remember(int) { g_interrupted = 1; }

void on_first(int number) {
  struct sigaction action = {};
  action.sa_handler = remember;
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  sigaction(number, &action, nullptr);
}

}  // namespace

void watch_for_interrupts() {
  on_first(SIGINT);
  on_first(SIGTERM);
  std::signal(SIGXFSZ, SIG_IGN);
}

bool interrupted() { return g_interrupted != 0; }

void end_if_interrupted() {
  if (interrupted()) throw Interrupted{};
}

}  // namespace sixty::cli
