#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace sixty {

/// One message of a gettext file.
struct PoEntry {
  std::string context, english, many;   ///< `many`: the English plural, where there is one
  std::vector<std::string> translated;  ///< at least one, perhaps empty
  std::vector<std::string> places;
  std::string place;  ///< the first of them
  bool fuzzy = false;
};

/// A catalogue or a template as gettext's own tools write it; obsolete messages are left out.
class PoFile {
 public:
  explicit PoFile(const std::filesystem::path& path);
  const std::vector<PoEntry>& entries() const { return entries_; }  ///< without the head
  const PoEntry* find(const std::string& context, const std::string& english) const;

  static std::string text_of(const std::filesystem::path& path);

 private:
  std::vector<PoEntry> entries_;
};

/// What stands in braces, sorted: "{0:.1f} of {1}" and "{1} of {0:.1f}" have the same; unnumbered
/// ones are numbered as they come, and named ones are without their decimals.
std::vector<std::string> braces_in(const std::string& words);

}  // namespace sixty
