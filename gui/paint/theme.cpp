#include "gui/paint/theme.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace sixty::gui {
namespace {

sf::Color rgb(unsigned hex) {
  return {static_cast<sf::Uint8>(hex >> 16U), static_cast<sf::Uint8>(hex >> 8U),
          static_cast<sf::Uint8>(hex)};
}

Finish finish_of(unsigned top_left, unsigned bottom_right, unsigned outline, unsigned light) {
  return {rgb(top_left), rgb(bottom_right), rgb(outline), rgb(light)};
}

using Finishes = std::array<Finish, kMaterials>;

Finishes dark_finishes() {
  return {{
      finish_of(0xE8C97A, 0xA57F34, 0x4A3812, 0xFFF0C4),  // brass
      finish_of(0xB08D45, 0x735722, 0x32260C, 0xE8C97A),  // brass farther back
      finish_of(0xB3C2CF, 0x65788A, 0x222C35, 0xE9F1F7),  // steel
      finish_of(0x6F8CB0, 0x4A6486, 0x1B2635, 0xA8C2E2),  // tempered steel
      finish_of(0x76858F, 0x414D57, 0x161C22, 0xA3B2BD),  // iron
      finish_of(0xDE9362, 0x9C5730, 0x41200E, 0xFFC79C),  // copper
      finish_of(0xF4F7FA, 0xB9C3CC, 0x4A545E, 0xFFFFFF),  // silver
      finish_of(0x4A3C3A, 0x2B2221, 0x120D0C, 0x7C6864),  // insulation
      finish_of(0xC3B89C, 0x988D6F, 0x4C4530, 0xDCD2B8),  // paper
      finish_of(0x2B2620, 0x2B2620, 0x2B2620, 0x2B2620),  // ink
      finish_of(0xEFE6CF, 0xC9BC9B, 0x6B5F45, 0xFFFBEF),  // ivory
      finish_of(0x2A343F, 0x1E2730, 0x0C1014, 0x4A5968),  // slate
      finish_of(0x33414F, 0x202A34, 0x12171D, 0x6F8496),  // glass
      finish_of(0x0C1014, 0x0C1014, 0x0C1014, 0x0C1014),  // hollow
      finish_of(0x56B4E9, 0x56B4E9, 0x12171D, 0x56B4E9),  // flux
      finish_of(0x2FBF94, 0x2FBF94, 0x12171D, 0x2FBF94),  // force
      finish_of(0xF2EDE4, 0xF2EDE4, 0x12171D, 0xF2EDE4),  // measure
  }};
}

Finishes light_finishes() {
  return {{
      finish_of(0xE3C06A, 0xA98237, 0x5A430F, 0xFFF3CC),  // brass
      finish_of(0xC6A558, 0x8F6E2B, 0x5A430F, 0xF0D896),  // brass farther back
      finish_of(0xB9C7D3, 0x73879A, 0x34434F, 0xF2F7FB),  // steel
      finish_of(0x7F9BBE, 0x56789E, 0x2C4058, 0xC5D6EA),  // tempered steel
      finish_of(0x8C9AA5, 0x5A6771, 0x2B343B, 0xBCC8D0),  // iron
      finish_of(0xD58B59, 0x96532C, 0x4B2812, 0xFFC79C),  // copper
      finish_of(0xFBFDFF, 0xBFC9D1, 0x46525D, 0xFFFFFF),  // silver
      finish_of(0x6B5653, 0x433533, 0x221918, 0x9B8480),  // insulation
      finish_of(0xFFFAEA, 0xEADFC2, 0x7C6F52, 0xFFFFFF),  // paper
      finish_of(0x2B2620, 0x2B2620, 0x2B2620, 0x2B2620),  // ink
      finish_of(0xEFE6CF, 0xC9BC9B, 0x6B5F45, 0xFFFBEF),  // ivory
      finish_of(0xD9D5C8, 0xC3BEAF, 0x8A8474, 0xFFFFFF),  // slate
      finish_of(0xFFFFFF, 0xE9E4D6, 0x8A8474, 0xFFFFFF),  // glass
      finish_of(0x4A4436, 0x4A4436, 0x4A4436, 0x4A4436),  // hollow
      finish_of(0x005A94, 0x005A94, 0xF6F2E7, 0x005A94),  // flux
      finish_of(0x00614A, 0x00614A, 0xF6F2E7, 0x00614A),  // force
      finish_of(0x1F2B36, 0x1F2B36, 0xF6F2E7, 0x1F2B36),  // measure
  }};
}

double linear(sf::Uint8 part) {
  const double c = part / 255.0;
  return c <= 0.03928 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

double luminance(sf::Color c) {
  return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

}  // namespace

const Finish& Theme::finish(Material material) const {
  static const Finishes dark = dark_finishes();
  static const Finishes light = light_finishes();
  return (is_dark ? dark : light)[static_cast<std::size_t>(material)];
}

const Theme& dark_theme() {
  static const Theme theme = {true,          rgb(0x12171D), rgb(0x1C252F), rgb(0x263240),
                              rgb(0xF2EDE4), rgb(0xB9C2CB), rgb(0x566575), rgb(0xFFB547),
                              rgb(0xFFF6E0), rgb(0xFF9A2E), rgb(0xF0763A), rgb(0x2FBF94),
                              rgb(0x33414F), rgb(0x6B7C8C), rgb(0xE8C97A), {0x05, 0x08, 0x0B, 128}};
  return theme;
}

const Theme& light_theme() {
  static const Theme theme = {false,         rgb(0xF6F2E7), rgb(0xFFFFFF), rgb(0xF1EBDC),
                              rgb(0x1F2B36), rgb(0x4B5966), rgb(0x8794A0), rgb(0xA34A00),
                              rgb(0xFFF6E0), rgb(0xFF9A2E), rgb(0xB23A00), rgb(0x00614A),
                              rgb(0xC9C1AD), rgb(0x8C836C), rgb(0x7D5F18), {0x5A, 0x4A, 0x2A, 56}};
  return theme;
}

double contrast(sf::Color a, sf::Color b) {
  const double la = luminance(a) + 0.05;
  const double lb = luminance(b) + 0.05;
  return std::max(la, lb) / std::min(la, lb);
}

}  // namespace sixty::gui
