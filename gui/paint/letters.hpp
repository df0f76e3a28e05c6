#pragma once

#include <SFML/Graphics/Font.hpp>
#include <SFML/Graphics/RenderTarget.hpp>
#include <memory>
#include <string>
#include <vector>

#include "gui/paint/painter.hpp"

namespace sixty::gui {

/// Plain and bold letters of one face, which has Latin, Greek and Cyrillic.
class Letters {
 public:
  /// `folder`: where the two files are; empty: where Debian has them. Errors: none is loaded, and
  /// error() says what is missing and what would mend it.
  explicit Letters(const std::string& folder = "");
  const std::string& error() const { return error_; }
  const std::string& plain_file() const { return files_[0]; }
  const std::string& bold_file() const { return files_[1]; }
  /// How many pixels of the target there are to one of the letterings'.
  void set_scale(float scale) { scale_ = scale; }
  /// Puts them all down, sharp at their size.
  void draw(const std::vector<Lettering>& letterings, sf::RenderTarget& target) const;
  /// Units: pixels.
  float width(const std::string& utf8, float size, bool bold) const;

 private:
  unsigned whole(float size) const;
  float pace(const std::string& utf8, float size, bool bold) const;
  const sf::Font& font(bool bold) const { return fonts_[bold ? 1 : 0]; }

  std::string files_[2];
  sf::Font fonts_[2];
  float scale_ = 1;
  std::string error_;
};

}  // namespace sixty::gui
