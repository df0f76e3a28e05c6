#include "sim/lesson/figures.hpp"

#include <algorithm>
#include <cctype>

#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::lesson {
namespace {

bool is_figure(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }
bool is_space(char c) { return std::isspace(static_cast<unsigned char>(c)) != 0; }

/// Whether a piece of a text is no piece of a longer number: "24 V" is none of "124 V".
bool is_whole(const std::string& text, std::size_t begin, std::size_t end) {
  const auto touches = [&](std::size_t near, std::size_t next) {
    if (near >= text.size()) return false;
    const bool is_point = text[near] == '.' || text[near] == ',';
    return is_figure(text[near]) || (is_point && next < text.size() && is_figure(text[next]));
  };
  return !(begin > 0 && is_figure(text[begin]) && touches(begin - 1, begin - 2)) &&
         !(is_figure(text[end - 1]) && touches(end, end + 1));
}

/// The text with all blanks where something is in braces or stated.
std::string unproved(std::string text, const std::vector<Stated>& stated) {
  for (std::size_t open = text.find('{'); open != std::string::npos; open = text.find('{', open)) {
    const std::size_t close = std::min(text.find('}', open), text.size() - 1);
    std::fill(text.begin() + static_cast<std::ptrdiff_t>(open),
              text.begin() + static_cast<std::ptrdiff_t>(close) + 1, ' ');
  }
  for (const Stated& one : stated) {
    if (one.words.empty()) continue;
    for (std::size_t at = text.find(one.words); at != std::string::npos;
         at = text.find(one.words, at + one.words.size())) {
      if (is_whole(text, at, at + one.words.size()))
        std::fill_n(text.begin() + static_cast<std::ptrdiff_t>(at), one.words.size(), ' ');
    }
  }
  return text;
}

void add_figures(const YamlNode& words, const std::vector<Stated>& stated,
                 std::vector<Figures>& found) {
  const std::string text = unproved(words.scalar, stated);
  const auto figure = std::find_if(text.begin(), text.end(), is_figure);
  if (figure == text.end()) return;
  auto begin = figure, end = figure;
  while (begin != text.begin() && !is_space(*(begin - 1))) --begin;
  while (end != text.end() && !is_space(*end)) ++end;
  found.push_back({std::string(begin, end), words.line, words.column});
}

/// A map whose keys are languages.
bool is_words(const YamlNode& node) {
  return node.kind == YamlNode::kMap && node.find("en") != nullptr;
}

/// The English words, and what the catalogues have for them.
void add_figures_of_all(const YamlNode& english, const std::vector<Stated>& stated,
                        std::vector<Figures>& found) {
  add_figures(english, stated, found);
  const std::string key = trimmed_block(english.scalar);
  for (const Language& language : languages()) {
    const char* words = words_in(language, key.c_str());
    if (words == nullptr) continue;
    YamlNode translated = english;
    translated.scalar = words;
    add_figures(translated, stated, found);
  }
}

void look_through(const YamlNode& node, const std::vector<Stated>& stated,
                  std::vector<Figures>& found) {
  for (const auto& [key, value] : node.entries) {
    if (is_words(node) && value.kind == YamlNode::kScalar) {
      if (key.scalar == "en")
        add_figures_of_all(value, stated, found);
      else
        add_figures(value, stated, found);
    }
    look_through(value, stated, found);
  }
  for (const YamlNode& item : node.items) look_through(item, stated, found);
}

}  // namespace

std::vector<Figures> figures_in(const YamlNode& root, const std::vector<Stated>& stated) {
  std::vector<Figures> found;
  look_through(root, stated, found);
  return found;
}

}  // namespace sixty::lesson
