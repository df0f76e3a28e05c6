#include "tests/words/po_file.hpp"

#include <algorithm>
#include <fstream>
#include <sstream>

#include "sim/base/text.hpp"

namespace sixty {
namespace {

/// What a line's quotes hold.
std::string unquoted(const std::string& line) {
  const std::size_t begin = line.find('"'), end = line.rfind('"');
  std::string text;
  for (std::size_t at = begin + 1; at < end; ++at) {
    char c = line[at];
    if (c == '\\') c = line[++at] == 'n' ? '\n' : line[at];
    text += c;
  }
  return text;
}

bool starts(const std::string& line, const char* head) { return line.rfind(head, 0) == 0; }

void add_places(const std::string& line, PoEntry& entry) {
  std::istringstream words(line.substr(2));
  for (std::string place; words >> place;) entry.places.push_back(place);
}

}  // namespace

PoFile::PoFile(const std::filesystem::path& path) {
  std::ifstream file(path);
  PoEntry entry;
  std::string* text = nullptr;
  const auto finish = [&] {
    if (!entry.places.empty()) entry.place = entry.places.front();
    if (entry.translated.empty()) entry.translated.emplace_back();
    if (!entry.english.empty()) entries_.push_back(entry);
    entry = {};
    text = nullptr;
  };
  for (std::string line; std::getline(file, line);) {
    if (line.empty()) finish();
    if (starts(line, "#:")) add_places(line, entry);
    if (starts(line, "#,") && line.find("fuzzy") != std::string::npos) entry.fuzzy = true;
    if (starts(line, "msgctxt ")) text = &entry.context;
    if (starts(line, "msgid ")) text = &entry.english;
    if (starts(line, "msgid_plural ")) text = &entry.many;
    if (starts(line, "msgstr")) text = &entry.translated.emplace_back();
    if (text != nullptr && line[0] != '#') *text += unquoted(line);
  }
  finish();
}

const PoEntry* PoFile::find(const std::string& context, const std::string& english) const {
  for (const PoEntry& entry : entries_)
    if (entry.english == english && entry.context == context) return &entry;
  return nullptr;
}

std::string PoFile::text_of(const std::filesystem::path& path) {
  std::ifstream file(path);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::vector<std::string> braces_in(const std::string& words) {
  std::vector<std::string> all;
  int number = 0;
  for (std::size_t at = words.find('{'); at != std::string::npos; at = words.find('{', at)) {
    if (words.compare(at, 2, "{{") == 0) {
      at += 2;
      continue;
    }
    // A precision in braces of its own belongs to its number.
    std::size_t end = at + 1;
    for (int depth = 1; end < words.size() && depth > 0; ++end)
      depth += words[end] == '{' ? 1 : words[end] == '}' ? -1 : 0;
    std::string inside = words.substr(at + 1, end - at - 2);
    if (inside.empty() || inside[0] == ':') inside = std::to_string(number++) + inside;
    // How many decimals a named number has is the language's own matter.
    const bool is_named = is_letter(inside[0]) || inside[0] == '-';
    all.push_back(is_named ? inside.substr(0, inside.find(':')) : inside);
    at = end;
  }
  std::sort(all.begin(), all.end());
  return all;
}

}  // namespace sixty
