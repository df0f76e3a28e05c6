#include "sim/lesson/shelf.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <system_error>

#include "sim/words/words.hpp"

namespace sixty::lesson {
namespace {

double number_of(const YamlNode& root, const char* key) {
  const YamlNode* node = root.find(key);
  return node == nullptr ? 0 : std::strtod(node->scalar.c_str(), nullptr);
}

Listed listed_of(const YamlNode& root, const std::string& path) {
  Listed listed;
  listed.path = path;
  for (const auto& [language, words] : root.find("lesson")->entries)
    listed.title[language.scalar] = words.scalar;
  if (const YamlNode* scene = root.find("scene")) listed.scene = scene->scalar;
  listed.number = static_cast<int>(number_of(root, "number"));
  listed.minutes = number_of(root, "minutes");
  return listed;
}

}  // namespace

std::vector<Listed> lessons_in(const std::string& folder) {
  namespace fs = std::filesystem;
  std::vector<std::string> paths;
  std::error_code error;
  for (const fs::directory_entry& file : fs::directory_iterator(folder, error))
    if (file.path().extension() == ".yaml") paths.push_back(file.path().string());
  std::sort(paths.begin(), paths.end());
  std::vector<Listed> all;
  for (const std::string& path : paths) {
    Diagnostics unread;
    const auto root = read_yaml(path, unread);
    if (root && is_lesson(*root)) all.push_back(listed_of(*root, path));
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Listed& a, const Listed& b) { return a.number < b.number; });
  return all;
}

std::string title_in(const Listed& listed, const std::string& language) {
  auto it = listed.title.find(language);
  if (it != listed.title.end()) return it->second;
  it = listed.title.find("en");
  if (it == listed.title.end()) return listed.path;
  const Language* known = find_language(language);
  const char* words = known == nullptr ? nullptr : words_in(*known, it->second.c_str());
  return words == nullptr ? it->second : words;
}

}  // namespace sixty::lesson
