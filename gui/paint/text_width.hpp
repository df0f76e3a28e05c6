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

/// Breaks a text into lines no wider than that, as `width` tells it. Words that are wider stand
/// alone.
std::vector<std::string> broken_lines(const std::string& text, float widest,
                                      const std::function<float(const std::string&)>& width);

}  // namespace sixty::gui
