#include "tests/style/scan.hpp"

#include <algorithm>
#include <cctype>
#include <sstream>

namespace sixty::style {
namespace {

bool is_word_char(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '_'; }
bool is_upper(char c) { return std::isupper(static_cast<unsigned char>(c)) != 0; }
bool is_lower(char c) { return std::islower(static_cast<unsigned char>(c)) != 0; }
char lower(char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); }

/// Does a lower-case letter end here and a new hump begin? "relayState" after y, "HTTPServer"
/// after P.
bool is_hump(std::string_view text, std::size_t at) {
  if (at == 0 || !is_upper(text[at])) return false;
  if (!is_upper(text[at - 1])) return true;
  return at + 1 < text.size() && is_lower(text[at + 1]);
}

/// Length of the comment or literal that begins at `at`, or 0 if none does.
std::size_t length_of_non_code(std::string_view text, std::size_t at) {
  const auto until = [&](std::string_view end, std::size_t from) {
    const std::size_t found = text.find(end, from);
    return (found == std::string_view::npos ? text.size() : found + end.size()) - at;
  };
  const std::string_view rest = text.substr(at);
  if (starts_with(rest, "//")) return std::min(text.find('\n', at), text.size()) - at;
  if (starts_with(rest, "/*")) return until("*/", at + 2);
  if (starts_with(rest, "R\"")) {
    const std::string delimiter(rest.substr(2, rest.find('(') - 2));
    return until(")" + delimiter + "\"", at);
  }
  const bool separates_digits = at > 0 && is_word_char(text[at - 1]);
  if (rest[0] != '"' && (rest[0] != '\'' || separates_digits)) return 0;
  std::size_t end = at + 1;
  while (end < text.size() && text[end] != rest[0] && text[end] != '\n') {
    end += text[end] == '\\' ? 2 : 1;
  }
  return std::min(end + 1, text.size()) - at;
}

}  // namespace

bool starts_with(std::string_view text, std::string_view head) {
  return text.substr(0, head.size()) == head;
}

bool ends_with(std::string_view text, std::string_view tail) {
  return text.size() >= tail.size() && text.substr(text.size() - tail.size()) == tail;
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  std::istringstream stream{std::string(text)};
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

std::string_view included_name(std::string_view line) {
  const std::size_t hash = line.find_first_not_of(" \t");
  if (hash == std::string_view::npos || line[hash] != '#') return {};
  if (line.find("include") == std::string_view::npos) return {};
  const std::size_t open = line.find_first_of("\"<");
  if (open == std::string_view::npos) return {};
  return line.substr(open, line.find_first_of("\">", open + 1) - open);
}

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> words;
  std::string word;
  const auto finish = [&] {
    if (!word.empty()) words.push_back(word);
    word.clear();
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (!is_word_char(text[i]) || text[i] == '_' || is_hump(text, i)) finish();
    if (is_word_char(text[i]) && text[i] != '_') word += lower(text[i]);
  }
  finish();
  return words;
}

std::vector<Identifier> identifiers_of(std::string_view line) {
  std::vector<Identifier> found;
  for (std::size_t i = 0; i < line.size();) {
    if (!is_word_char(line[i])) {
      ++i;
      continue;
    }
    std::size_t end = i;
    while (end < line.size() && is_word_char(line[end])) ++end;
    const std::string_view rest =
        line.substr(std::min(line.find_first_not_of(' ', end), line.size()));
    const bool called = starts_with(rest, "(") && !starts_with(rest, "()");
    const bool member = i > 0 && (line[i - 1] == '.' || ends_with(line.substr(0, i), "->"));
    found.push_back({line.substr(i, end - i), member, ends_with(line.substr(0, i), "::"), called});
    i = end;
  }
  return found;
}

std::string code_only(std::string_view text) {
  std::string code(text);
  for (std::size_t i = 0; i < text.size();) {
    const std::size_t length = length_of_non_code(text, i);
    for (std::size_t k = i; k < i + length; ++k) {
      if (code[k] != '\n') code[k] = ' ';
    }
    i += std::max<std::size_t>(length, 1);
  }
  return code;
}

}  // namespace sixty::style
