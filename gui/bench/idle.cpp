#include "gui/bench/idle.hpp"

namespace sixty::gui {

bool Idle::rests(bool stirs, float gone_s) {
  still_s_ = stirs ? 0 : still_s_ + gone_s;
  shown_s_ += gone_s;
  if (still_s_ >= kGoesOn_s && shown_s_ < kLooks_s) return true;
  shown_s_ = 0;
  return false;
}

}  // namespace sixty::gui
