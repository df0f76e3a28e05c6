#pragma once

#include <string_view>

namespace sixty::gui {

/// How wide letters are without asking the font, so that names can be laid out before there is a
/// window. Units: pixels, as `size`, of the em. Range: exact for ASCII in the bench's own face, a
/// fair guess for other letters.
float text_width(std::string_view utf8, float size, bool bold = false);

}  // namespace sixty::gui
