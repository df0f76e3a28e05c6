#include "gui/keep/paths.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <system_error>

namespace sixty::gui {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostShown = 200;
constexpr std::size_t kMostLookedAt = 20'000;  // a folder of millions must not hold the window up

bool begins(const std::string& text, const std::string& with) {
  return text.compare(0, with.size(), with) == 0;
}

bool is_yaml(const fs::path& path) {
  return path.extension() == ".yaml" || path.extension() == ".yml";
}

}  // namespace

std::string with_home(const std::string& path) {
  const char* home = std::getenv("HOME");
  return home != nullptr && begins(path, "~/") ? home + path.substr(1) : path;
}

std::vector<std::string> completions(const std::string& begun) {
  const std::size_t slash = begun.rfind('/');
  const std::string folder = slash == std::string::npos ? "" : begun.substr(0, slash + 1);
  const std::string name = begun.substr(folder.size());
  std::vector<std::string> found;
  std::error_code code;
  fs::directory_iterator entry(folder.empty() ? "." : with_home(folder), code);
  for (std::size_t k = 0; !code && entry != fs::directory_iterator() && k < kMostLookedAt;
       entry.increment(code), ++k) {
    const std::string own = entry->path().filename().string();
    if (!begins(own, name) || (own.front() == '.' && name.empty())) continue;
    std::error_code unknown;
    if (entry->is_directory(unknown)) {
      found.push_back(folder + own + "/");
    } else if (is_yaml(entry->path())) {
      found.push_back(folder + own);
    }
  }
  std::sort(found.begin(), found.end());
  if (found.size() > kMostShown) found.resize(kMostShown);
  return found;
}

std::string completed(const std::string& begun, const std::vector<std::string>& candidates) {
  if (candidates.empty()) return begun;
  std::string common = candidates.front();
  for (const std::string& candidate : candidates) {
    const auto differs =
        std::mismatch(common.begin(), common.end(), candidate.begin(), candidate.end());
    common.erase(differs.first, common.end());
  }
  return common;
}

}  // namespace sixty::gui
