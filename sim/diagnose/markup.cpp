#include "sim/diagnose/markup.hpp"

namespace sixty::diagnose {

std::string escaped(std::string_view text) {
  std::string safe;
  for (const char c : text) {
    const auto u = static_cast<unsigned char>(c);
    switch (c) {
      case '&':
        safe += "&amp;";
        break;
      case '<':
        safe += "&lt;";
        break;
      case '>':
        safe += "&gt;";
        break;
      case '"':
        safe += "&quot;";
        break;
      case '\'':
        safe += "&#39;";
        break;
      default:
        if (u >= 0x20 || c == '\n' || c == '\t') safe += c;
    }
  }
  return safe;
}

}  // namespace sixty::diagnose
