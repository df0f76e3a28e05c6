#include "gui/keep/write.hpp"

#include <fmt/format.h>

#include <filesystem>
#include <system_error>

#include "sim/base/text.hpp"

namespace sixty::gui {

std::string in_quotes(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += {'\\', c};
    } else if (byte < 0x20 || byte == 0x7F) {
      out += fmt::format("\\x{:02x}", byte);
    } else {
      out += c;
    }
  }
  return out + "\"";
}

std::string folder_of(const std::string& path) {
  const std::string folder = std::filesystem::path(path).parent_path().string();
  return folder.empty() ? "." : folder;
}

bool make_folder(const std::string& path, std::string& error) {
  std::error_code code;
  std::filesystem::create_directories(path, code);
  if (!code) return true;
  error = "the folder " + printable(path, 500) + " cannot be made: " + code.message();
  return false;
}

}  // namespace sixty::gui
