#include "gui/strip/behind.hpp"

#include <sys/resource.h>
#include <unistd.h>

namespace sixty::gui {
namespace {

// A tenth of what the window and the run get, where there is not enough for all.
constexpr int kNice = 10;

}  // namespace

void stay_behind() {
  // Where that is not allowed it goes on as before.
  setpriority(PRIO_PROCESS, static_cast<id_t>(gettid()), kNice);
}

}  // namespace sixty::gui
