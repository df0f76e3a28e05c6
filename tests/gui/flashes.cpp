#include "tests/gui/flashes.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::gui {
namespace {

constexpr unsigned kWide = 341, kHigh = 256;
constexpr double kStep = 0.1, kBright = 0.8;
constexpr int kMostFlashes = 3;

/// Source: WCAG 2.2, "relative luminance".
double part_of(sf::Uint8 value) {
  const double share = value / 255.0;
  return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
}

double luminance(sf::Color c) {
  return 0.2126 * part_of(c.r) + 0.7152 * part_of(c.g) + 0.0722 * part_of(c.b);
}

/// Opposing changes of one pixel, two to a flash.
int changes_at(const std::vector<sf::Image>& pictures, unsigned x, unsigned y) {
  int changes = 0, direction = 0;
  double least = luminance(pictures.front().getPixel(x, y)), most = least;
  for (const sf::Image& picture : pictures) {
    const double now = luminance(picture.getPixel(x, y));
    least = std::min(least, now);
    most = std::max(most, now);
    const int to = now - least >= kStep && least < kBright ? 1
                   : most - now >= kStep && now < kBright  ? -1
                                                           : 0;
    if (to == 0) continue;
    if (to != direction) ++changes;
    direction = to;
    least = most = now;
  }
  return changes;
}

}  // namespace

int flashing_pixels(const std::vector<sf::Image>& pictures) {
  const auto [width, height] = pictures.front().getSize();
  std::vector<int> sum((width + 1) * (height + 1), 0);  // of all above and to the left
  for (unsigned y = 0; y < height; ++y) {
    for (unsigned x = 0; x < width; ++x) {
      const int flashes = changes_at(pictures, x, y) / 2 > kMostFlashes ? 1 : 0;
      sum[(y + 1) * (width + 1) + x + 1] = flashes + sum[y * (width + 1) + x + 1] +
                                           sum[(y + 1) * (width + 1) + x] -
                                           sum[y * (width + 1) + x];
    }
  }
  int most = 0;
  const unsigned wide = std::min(width, kWide), high = std::min(height, kHigh);
  for (unsigned y = high; y <= height; ++y)
    for (unsigned x = wide; x <= width; ++x)
      most = std::max(most, sum[y * (width + 1) + x] - sum[(y - high) * (width + 1) + x] -
                                sum[y * (width + 1) + x - wide] +
                                sum[(y - high) * (width + 1) + x - wide]);
  return most;
}

}  // namespace sixty::gui
