#include "tests/scene/mutation.hpp"

#include <rapidcheck.h>

#include <algorithm>
#include <vector>

namespace sixty::fake {

std::string mutated(std::string text) {
  const std::vector<std::string> odd = {"",           "\n",       ":",
                                        ": ",         "- ",       "[",
                                        "]",          "{",        "}",
                                        "\"",         "'",        "~",
                                        "null",       "yes",      "-1",
                                        "0",          "1e999",    "1e400 V",
                                        "nan",        ".",        "..",
                                        "a.b",        "24 V",     "80 ohm",
                                        "\t",         "\xC3",     "\xCE\xA9",
                                        "&a",         "*a",       "<<",
                                        "!!x",        "---",      "? ",
                                        "lamp",       "lamp_1.a", "wheel.arbor",
                                        "finger",     "minus",    "at 0 s: ",
                                        "type: lamp", "#",        "|\n",
                                        ">\n",        "parts:\n", "99999999999999999999",
                                        "{n}",        "none",     "places: ",
                                        "series",     "parallel", "12 m",
                                        "\\",         "\x01"};
  const auto size = static_cast<int>(text.size());
  const auto begin = static_cast<std::size_t>(*rc::gen::inRange(0, size + 1));
  const auto length =
      std::min(static_cast<std::size_t>(*rc::gen::inRange(0, 30)), text.size() - begin);
  const std::string piece = text.substr(begin, length);
  switch (*rc::gen::inRange(0, 4)) {
    case 0:
      return text.erase(begin, length);
    case 1:
      return text.insert(begin, piece);
    case 2:
      text.erase(begin, length);
      return text.insert(
          static_cast<std::size_t>(*rc::gen::inRange(0, static_cast<int>(text.size()) + 1)), piece);
    default:
      return text.replace(begin, length, *rc::gen::elementOf(odd));
  }
}

}  // namespace sixty::fake
