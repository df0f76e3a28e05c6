#pragma once

#include <SFML/Graphics/Image.hpp>
#include <vector>

namespace sixty::gui {

/// Pixels that flash more than three times within a second, in the window of a tenth of the field
/// of view that has most of them. A flash is a pair of opposing changes of relative luminance by a
/// tenth or more, where the darker picture is below 0.80. Source: WCAG 2.2 (W3C, 2023), "general
/// flash and red flash thresholds"; 341 by 256 pixels at 1024 by 768 stand there for 10 degrees.
/// Range: pictures of one size, over no more than a second.
int flashing_pixels(const std::vector<sf::Image>& pictures);

/// As many may flash as that, in one such window: a quarter of it (the same source).
constexpr int kMostFlashing = 341 * 256 / 4;

}  // namespace sixty::gui
