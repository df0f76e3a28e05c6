#include "tests/gui/likeness.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

namespace sixty::gui {
namespace {

// Measured on altered pictures, see pictures_test.cpp.
constexpr double kLeastStructure = 0.80, kMostColour = 3.0;

/// One value for each pixel.
struct Plane {
  unsigned width = 0, height = 0;
  std::vector<double> values;
  Plane(unsigned w, unsigned h) : width(w), height(h), values(std::size_t{w} * h) {}
  double& at(unsigned x, unsigned y) { return values[std::size_t{y} * width + x]; }
  double at(unsigned x, unsigned y) const { return values[std::size_t{y} * width + x]; }
};

/// Brightness as ITU-R BT.601 has it.
Plane brightness(const sf::Image& image) {
  Plane plane(image.getSize().x, image.getSize().y);
  for (unsigned y = 0; y < plane.height; ++y) {
    for (unsigned x = 0; x < plane.width; ++x) {
      const sf::Color c = image.getPixel(x, y);
      plane.at(x, y) = 0.299 * c.r + 0.587 * c.g + 0.114 * c.b;
    }
  }
  return plane;
}

/// Each pixel the weighted mean of those about it; beyond the edge they are as at it.
Plane smoothed(const Plane& plane) {
  constexpr int kReach = 5;
  std::array<double, 2 * kReach + 1> weights{};
  double sum = 0;
  for (int k = -kReach; k <= kReach; ++k)
    sum += weights[static_cast<std::size_t>(k + kReach)] = std::exp(-k * k / (2 * 1.5 * 1.5));
  for (double& weight : weights) weight /= sum;
  const auto clamped = [](int k, unsigned count) {
    return static_cast<unsigned>(std::clamp(k, 0, static_cast<int>(count) - 1));
  };
  Plane across(plane.width, plane.height), out(plane.width, plane.height);
  for (unsigned y = 0; y < plane.height; ++y) {
    for (unsigned x = 0; x < plane.width; ++x) {
      for (int k = -kReach; k <= kReach; ++k)
        across.at(x, y) += weights[static_cast<std::size_t>(k + kReach)] *
                           plane.at(clamped(static_cast<int>(x) + k, plane.width), y);
    }
  }
  for (unsigned y = 0; y < plane.height; ++y) {
    for (unsigned x = 0; x < plane.width; ++x) {
      for (int k = -kReach; k <= kReach; ++k)
        out.at(x, y) += weights[static_cast<std::size_t>(k + kReach)] *
                        across.at(x, clamped(static_cast<int>(y) + k, plane.height));
    }
  }
  return out;
}

Plane product(const Plane& a, const Plane& b) {
  Plane out(a.width, a.height);
  for (std::size_t k = 0; k < out.values.size(); ++k) out.values[k] = a.values[k] * b.values[k];
  return out;
}

/// The index at each pixel.
Plane structure(const Plane& a, const Plane& b) {
  constexpr double kC1 = 0.01 * 255 * 0.01 * 255, kC2 = 0.03 * 255 * 0.03 * 255;
  const Plane mean_a = smoothed(a), mean_b = smoothed(b);
  const Plane square_a = smoothed(product(a, a)), square_b = smoothed(product(b, b));
  const Plane both = smoothed(product(a, b));
  Plane index(a.width, a.height);
  for (std::size_t k = 0; k < index.values.size(); ++k) {
    const double ma = mean_a.values[k], mb = mean_b.values[k];
    const double va = square_a.values[k] - ma * ma, vb = square_b.values[k] - mb * mb;
    const double vab = both.values[k] - ma * mb;
    index.values[k] =
        (2 * ma * mb + kC1) * (2 * vab + kC2) / ((ma * ma + mb * mb + kC1) * (va + vb + kC2));
  }
  return index;
}

using Lab = std::array<double, 3>;

Lab lab_of(const std::array<double, 3>& rgb) {
  std::array<double, 3> light{};
  for (std::size_t k = 0; k < 3; ++k) {
    const double v = rgb[k] / 255;
    light[k] = v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
  }
  const auto f = [](double t) {
    constexpr double kKnee = 6.0 / 29;
    return t > kKnee * kKnee * kKnee ? std::cbrt(t) : t / (3 * kKnee * kKnee) + 4.0 / 29;
  };
  // Against white of the standard illuminant D65.
  const double x = f((0.4124 * light[0] + 0.3576 * light[1] + 0.1805 * light[2]) / 0.9505);
  const double y = f(0.2126 * light[0] + 0.7152 * light[1] + 0.0722 * light[2]);
  const double z = f((0.0193 * light[0] + 0.1192 * light[1] + 0.9505 * light[2]) / 1.089);
  return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

Lab mean_colour(const sf::Image& image, unsigned left, unsigned top) {
  std::array<double, 3> sum{};
  for (unsigned y = top; y < top + kBlock; ++y) {
    for (unsigned x = left; x < left + kBlock; ++x) {
      const sf::Color c = image.getPixel(x, y);
      sum = {sum[0] + c.r, sum[1] + c.g, sum[2] + c.b};
    }
  }
  for (double& part : sum) part /= kBlock * kBlock;
  return lab_of(sum);
}

double distance(const Lab& a, const Lab& b) {
  return std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
}

double mean_of(const Plane& plane, unsigned left, unsigned top) {
  double sum = 0;
  for (unsigned y = top; y < top + kBlock; ++y) {
    for (unsigned x = left; x < left + kBlock; ++x) sum += plane.at(x, y);
  }
  return sum / (kBlock * kBlock);
}

}  // namespace

bool Likeness::is_same() const { return structure >= kLeastStructure && colour <= kMostColour; }

std::string Likeness::text() const {
  return fmt::format("structure {:.3f} at {},{}, colours {:.1f} apart at {},{}", structure,
                     structure_at.x, structure_at.y, colour, colour_at.x, colour_at.y);
}

Likeness likeness(const sf::Image& a, const sf::Image& b) {
  const Plane index = structure(brightness(a), brightness(b));
  Likeness least;
  for (unsigned y = 0; y + kBlock <= index.height; y += kBlock / 2) {
    for (unsigned x = 0; x + kBlock <= index.width; x += kBlock / 2) {
      if (const double here = mean_of(index, x, y); here < least.structure) {
        least.structure = here;
        least.structure_at = {x, y};
      }
      const double apart = distance(mean_colour(a, x, y), mean_colour(b, x, y));
      if (apart > least.colour) {
        least.colour = apart;
        least.colour_at = {x, y};
      }
    }
  }
  return least;
}

sf::Image halved(const sf::Image& image) {
  sf::Image half;
  half.create(image.getSize().x / 2, image.getSize().y / 2);
  for (unsigned y = 0; y < half.getSize().y; ++y) {
    for (unsigned x = 0; x < half.getSize().x; ++x) {
      unsigned r = 2, g = 2, b = 2;
      for (const auto& [dx, dy] : {std::pair(0U, 0U), {1U, 0U}, {0U, 1U}, {1U, 1U}}) {
        const sf::Color c = image.getPixel(2 * x + dx, 2 * y + dy);
        r += c.r;
        g += c.g;
        b += c.b;
      }
      const auto mean = [](unsigned sum) { return static_cast<sf::Uint8>(sum / 4); };
      half.setPixel(x, y, {mean(r), mean(g), mean(b)});
    }
  }
  return half;
}

}  // namespace sixty::gui
