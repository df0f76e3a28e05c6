#include "tests/scene/scene_files.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <sstream>

namespace sixty::fake {
namespace {

namespace fs = std::filesystem;

// A folder of this process alone, so that programs may run side by side.
fs::path own_folder() {
  const fs::path folder =
      fs::path(testing::TempDir()) / ("scene_tests_" + std::to_string(getpid()));
  fs::create_directories(folder);
  return folder;
}

std::string write(const std::string& name, const std::string& text) {
  const fs::path path = own_folder() / name;
  std::ofstream(path, std::ios::binary) << text;
  return path.string();
}

}  // namespace

std::string beside(const std::string& name) {
  return std::string(SIXTY_SOURCE_DIR) + "/tests/scene/" + name;
}

std::vector<std::string> files_in(const std::string& folder, const std::string& ending) {
  std::vector<std::string> paths;
  for (const auto& entry : fs::directory_iterator(beside(folder)))
    if (entry.path().extension() == ending) paths.push_back(entry.path().string());
  std::sort(paths.begin(), paths.end());
  return paths;
}

std::string text_of(const std::string& path) {
  std::ifstream stream(path, std::ios::binary);
  std::ostringstream text;
  text << stream.rdbuf();
  return text.str();
}

Loaded load_text(const std::string& text, const Registry& registry, const SceneChanges& changes) {
  Loaded loaded;
  const std::string path = write("scene.yaml", text);
  loaded.scene = load_scene(path, registry, changes, loaded.diagnostics);
  fs::remove(path);
  return loaded;
}

std::string check_text_as(const std::string& name, const std::string& text,
                          const Registry& registry) {
  const std::string path = write(name, text);
  Diagnostics diagnostics;
  check_file(path, registry, diagnostics);
  fs::remove(path);
  std::string result = diagnostics.to_text();
  const std::string prefix = own_folder().string() + "/";
  for (std::size_t at = result.find(prefix); at != std::string::npos; at = result.find(prefix))
    result.erase(at, prefix.size());
  return result;
}

}  // namespace sixty::fake
