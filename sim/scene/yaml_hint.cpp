#include "sim/scene/yaml_hint.hpp"

#include <algorithm>
#include <vector>

namespace sixty {
namespace {

bool is_blank(char c) { return c == ' ' || c == '\t'; }
bool opens(char c) { return c == '[' || c == '{'; }
bool closes(char c) { return c == ']' || c == '}'; }

// Offset just behind the quotes that open at `offset`, or npos if they never close.
std::size_t end_of_quotes(std::string_view text, std::size_t offset) {
  const char quote = text[offset];
  for (std::size_t i = offset + 1; i < text.size(); ++i) {
    if (quote == '"' && text[i] == '\\') {
      ++i;
    } else if (text[i] == quote) {
      const bool doubled = quote == '\'' && i + 1 < text.size() && text[i + 1] == '\'';
      if (!doubled) return i + 1;
      ++i;
    }
  }
  return std::string_view::npos;
}

// Follows brackets through a text, leaving out quotes, comments and plain words.
class BracketWalk {
 public:
  explicit BracketWalk(std::string_view text) : text_(text) {}

  std::optional<YamlHint> run() {
    while (at_ < text_.size()) {
      std::optional<YamlHint> wrong = step();
      if (wrong) return wrong;
    }
    if (open_.empty()) return std::nullopt;
    const std::string bracket(1, text_[open_.front()]);
    return YamlHint{open_.front(), "the bracket " + bracket + " is never closed",
                    "close it, or put quotes around a text that begins with " + bracket};
  }

 private:
  // Whether a value may begin here, so that a bracket or quote is one and not part of a word.
  bool value_may_begin() const {
    std::size_t before = at_;
    while (before > 0 && is_blank(text_[before - 1])) --before;
    if (before == 0 || text_[before - 1] == '\n') return true;
    const char last = text_[before - 1];
    if (!open_.empty()) return opens(last) || last == ',' || last == ':';
    return before < at_ && (last == ':' || last == '-' || last == '?');
  }

  bool comment_begins() const {
    return text_[at_] == '#' && (at_ == 0 || is_blank(text_[at_ - 1]) || text_[at_ - 1] == '\n');
  }

  std::optional<YamlHint> step() {
    const char c = text_[at_];
    if (comment_begins()) {
      at_ = std::min(text_.find('\n', at_), text_.size());
    } else if ((c == '"' || c == '\'') && value_may_begin()) {
      at_ = std::min(end_of_quotes(text_, at_), text_.size());
    } else if (opens(c) && (!open_.empty() || value_may_begin())) {
      open_.push_back(at_++);
    } else if (closes(c) && !open_.empty()) {
      return close();
    } else {
      ++at_;
    }
    return std::nullopt;
  }

  std::optional<YamlHint> close() {
    const char opener = text_[open_.back()];
    const char wanted = opener == '[' ? ']' : '}';
    if (text_[at_] != wanted) {
      const TextPlace place = place_of(text_, open_.back());
      return YamlHint{at_,
                      std::string(1, text_[at_]) + " closes the bracket " + opener + " of line " +
                          std::to_string(place.line) + ", column " + std::to_string(place.column),
                      std::string("write ") + wanted + " here, or check which bracket is missing"};
    }
    open_.pop_back();
    ++at_;
    return std::nullopt;
  }

  std::string_view text_;
  std::size_t at_ = 0;
  std::vector<std::size_t> open_;  // offsets of the brackets that are open
};

std::optional<YamlHint> tab_in_indentation(std::string_view text, int line) {
  std::size_t start = 0;
  for (int n = 1; n < line && start != std::string_view::npos; ++n) {
    const std::size_t end = text.find('\n', start);
    start = end == std::string_view::npos ? end : end + 1;
  }
  for (std::size_t i = start; i < text.size() && is_blank(text[i]); ++i)
    if (text[i] == '\t')
      return YamlHint{i, "a tab stands in the indentation", "indent with spaces"};
  return std::nullopt;
}

}  // namespace

TextPlace place_of(std::string_view text, std::size_t offset) {
  const std::string_view before = text.substr(0, offset);
  const std::size_t line_end = before.rfind('\n');
  const std::size_t start = line_end == std::string_view::npos ? 0 : line_end + 1;
  return {static_cast<int>(std::count(before.begin(), before.end(), '\n')) + 1,
          static_cast<int>(before.size() - start) + 1};
}

std::optional<YamlHint> find_yaml_hint(std::string_view text, int error_line) {
  std::optional<YamlHint> hint = tab_in_indentation(text, error_line);
  return hint ? hint : BracketWalk(text).run();
}

bool quotes_are_closed(std::string_view text, std::size_t offset) {
  const bool quotes = offset < text.size() && (text[offset] == '"' || text[offset] == '\'');
  return !quotes || end_of_quotes(text, offset) != std::string_view::npos;
}

}  // namespace sixty
