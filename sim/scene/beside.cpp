#include "sim/scene/beside.hpp"

#include <filesystem>
#include <system_error>

namespace sixty {

std::string scene_beside(const std::string& file, const std::string& scene) {
  namespace fs = std::filesystem;
  const fs::path folder = fs::path(file).parent_path();
  for (const fs::path& place : {folder, folder / ".."}) {
    const fs::path found = place / (scene + ".yaml");
    std::error_code error;
    if (fs::is_regular_file(found, error)) return found.string();
  }
  return "";
}

}  // namespace sixty
