#include "gui/bench/scale.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "gui/bench/display.hpp"
#include "gui/keep/settings.hpp"

namespace sixty::gui {
namespace {

constexpr std::array kSteps{0.75F, 0.9F, 1.0F, 1.15F, 1.3F, 1.5F, 1.75F, 2.0F, 2.5F, 3.0F, 4.0F};

void divide(int& x, int& y, float scale) {
  x = static_cast<int>(std::lround(static_cast<float>(x) / scale));
  y = static_cast<int>(std::lround(static_cast<float>(y) / scale));
}

}  // namespace

float chosen_scale(double command_line, double settings) {
  double scale = display_scale();
  if (settings != 0) scale = settings;
  if (command_line != 0) scale = command_line;
  return static_cast<float>(std::clamp(scale, Settings::kLeastScale, Settings::kMostScale));
}

float next_scale(float scale, int by) {
  constexpr float kSame = 0.01F;
  if (by > 0) {
    const auto* it =
        std::find_if(kSteps.begin(), kSteps.end(), [&](float s) { return s > scale + kSame; });
    return it == kSteps.end() ? kSteps.back() : *it;
  }
  const auto it =
      std::find_if(kSteps.rbegin(), kSteps.rend(), [&](float s) { return s < scale - kSame; });
  return it == kSteps.rend() ? kSteps.front() : *it;
}

sf::Event in_drawing(sf::Event event, float scale) {
  switch (event.type) {
    case sf::Event::MouseMoved:
      divide(event.mouseMove.x, event.mouseMove.y, scale);
      break;
    case sf::Event::MouseButtonPressed:
    case sf::Event::MouseButtonReleased:
      divide(event.mouseButton.x, event.mouseButton.y, scale);
      break;
    case sf::Event::MouseWheelScrolled:
      divide(event.mouseWheelScroll.x, event.mouseWheelScroll.y, scale);
      break;
    default:
      break;
  }
  return event;
}

sf::IntRect in_window(const sf::FloatRect& box, float scale) {
  const auto whole = [scale](float length) {
    return static_cast<int>(std::lround(length * scale));
  };
  return {whole(box.left), whole(box.top), whole(box.width), whole(box.height)};
}

}  // namespace sixty::gui
