#include "gui/keep/write.hpp"

#include <filesystem>
#include <system_error>

#include "sim/base/text.hpp"

namespace sixty::gui {

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
