#include "sim/base/ending.hpp"

#include <csignal>

namespace sixty {
namespace {

volatile std::sig_atomic_t g_asked = 0;

void remember(int) { g_asked = 1; }

void on_first(int number) {
  struct sigaction action = {};
  action.sa_handler = remember;
  action.sa_flags = static_cast<int>(SA_RESETHAND);
  sigaction(number, &action, nullptr);
}

}  // namespace

void watch_for_end() {
  on_first(SIGTERM);
  on_first(SIGINT);
}

bool is_asked_to_end() { return g_asked != 0; }

}  // namespace sixty
