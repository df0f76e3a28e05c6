#include "gui/paint/letters.hpp"

#include <SFML/Graphics/VertexArray.hpp>
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <map>

#include "gui/paint/text_width.hpp"

namespace sixty::gui {
namespace {

constexpr const char* kDebianFolder = "/usr/share/fonts/truetype/dejavu";
constexpr float kClosest = 0.85F;  ///< closer than that letters would touch
constexpr const char* kNames[] = {"DejaVuSans.ttf", "DejaVuSans-Bold.ttf"};

sf::String decoded(const std::string& utf8) {
  return sf::String::fromUtf8(utf8.begin(), utf8.end());
}

/// `origin`: in the target's pixels, of which there are `scale` to one of the drawing.
void add_glyph(const sf::Glyph& glyph, Pixel origin, float scale, sf::Color colour,
               sf::VertexArray& out) {
  const sf::FloatRect b = glyph.bounds;
  const sf::FloatRect t(glyph.textureRect);
  const Pixel low = Pixel(origin.x + b.left, origin.y + b.top) / scale;
  const Pixel high = low + Pixel(b.width, b.height) / scale;
  const sf::Vertex corners[4] = {{low, colour, {t.left, t.top}},
                                 {{high.x, low.y}, colour, {t.left + t.width, t.top}},
                                 {high, colour, {t.left + t.width, t.top + t.height}},
                                 {{low.x, high.y}, colour, {t.left, t.top + t.height}}};
  for (const int k : {0, 1, 2, 0, 2, 3}) out.append(corners[k]);
}

}  // namespace

Letters::Letters(const std::string& folder) {
  const std::filesystem::path where(folder.empty() ? kDebianFolder : folder);
  for (std::size_t k = 0; k < 2; ++k) {
    files_[k] = (where / kNames[k]).string();
    std::error_code none;
    const bool there = std::filesystem::is_regular_file(files_[k], none);
    if (there && fonts_[k].loadFromFile(files_[k])) continue;
    error_ = files_[k] +
             ": the letters cannot be read; install fonts-dejavu-core, or name another " +
             "folder with --fonts";
  }
}

/// Of the target's pixels.
unsigned Letters::whole(float size) const {
  return static_cast<unsigned>(std::max(std::lround(size * scale_), 1L));
}

/// Of what the letters would take one after the other, sharpened as they are for whole pixels. That
/// widens small ones by up to a tenth, and they would leave the room laid out for them.
float Letters::pace(const std::string& utf8, float size, bool bold) const {
  float wide = 0;
  for (const sf::Uint32 letter : decoded(utf8))
    wide += font(bold).getGlyph(letter, whole(size), false).advance;
  const float room = text_width(utf8, size, bold) * scale_;
  return wide > room ? std::max(room / wide, kClosest) : 1;
}

float Letters::width(const std::string& utf8, float size, bool bold) const {
  float wide = 0;
  for (const sf::Uint32 letter : decoded(utf8))
    wide += font(bold).getGlyph(letter, whole(size), false).advance;
  return wide * pace(utf8, size, bold) / scale_;
}

void Letters::draw(const std::vector<Lettering>& letterings, sf::RenderTarget& target) const {
  std::map<std::pair<bool, unsigned>, sf::VertexArray> batches;
  for (const Lettering& l : letterings) {
    const unsigned size = whole(l.size);
    if (size < 5 || l.text.empty()) continue;
    sf::VertexArray& batch = batches[{l.bold, size}];
    batch.setPrimitiveType(sf::Triangles);
    const float wide = width(l.text, l.size, l.bold);
    const float shift = l.align == Lettering::Align::kLeft    ? 0
                        : l.align == Lettering::Align::kRight ? wide
                                                              : wide / 2;
    const float closer = pace(l.text, l.size, l.bold);
    Pixel at(std::round((l.at.x - shift) * scale_),
             std::round(l.at.y * scale_ + 0.36F * static_cast<float>(size)));
    for (const sf::Uint32 letter : decoded(l.text)) {
      const sf::Glyph& glyph = font(l.bold).getGlyph(letter, size, false);
      add_glyph(glyph, {std::round(at.x), at.y}, scale_, l.colour, batch);
      at.x += glyph.advance * closer;
    }
  }
  for (const auto& [key, batch] : batches)
    target.draw(batch, &font(key.first).getTexture(key.second));
}

}  // namespace sixty::gui
