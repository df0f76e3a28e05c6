#include "sim/base/vcd_names.hpp"

namespace sixty {

std::string identifier_code(std::size_t number) {
  constexpr std::size_t kCharacters = '~' - '!' + 1;
  std::string code;
  for (;; number = number / kCharacters - 1) {
    code += static_cast<char>('!' + number % kCharacters);
    if (number < kCharacters) return code;
  }
}

std::string simple_identifier(std::string_view text) {
  std::string name;
  for (const char c : text) {
    const bool fits = (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9');
    name += fits ? c : '_';
  }
  return name.empty() || (name[0] >= '0' && name[0] <= '9') ? "_" + name : name;
}

}  // namespace sixty
