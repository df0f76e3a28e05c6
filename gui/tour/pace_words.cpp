#include "gui/tour/pace_words.hpp"

#include "sim/words/words.hpp"

namespace sixty::gui {

std::string pace_words(const Runner::Seen& seen) {
  if (seen.stretch) return tr("slow where it matters");
  if (seen.speed == 1) return tr("true speed");
  return seen.speed > 1 ? say("{:.0f} times faster", seen.speed)
                        : say("{:.0f} times slower", 1 / seen.speed);
}

}  // namespace sixty::gui
