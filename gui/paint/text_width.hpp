#pragma once

#include <functional>
#include <string>
#include <string_view>
#include <vector>

namespace sixty::gui {

/// How wide letters are without asking the font, so that names can be laid out before there is a
/// window. Units: pixels, as `size`, of the em. Range: exact for ASCII in the bench's own face, a
/// fair guess for other letters.
float text_width(std::string_view utf8, float size, bool bold = false);

/// Breaks a text into lines no wider than that, as `width` tells it; a number stays with its unit.
/// Words that are wider stand alone.
std::vector<std::string> broken_lines(const std::string& text, float widest,
                                      const std::function<float(const std::string&)>& width);
/// A name in the bench's own letters in no more lines than that; the last one ends in "…" where
/// there is no room for all. Units: pixels. Range: at least one line.
std::vector<std::string> fitted_lines(const std::string& name, float widest, float size, bool bold,
                                      std::size_t most);

}  // namespace sixty::gui
