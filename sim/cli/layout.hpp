#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

/// Laying out text for people: plain characters, at most kWidth of them in a line.
namespace sixty::cli {

constexpr std::size_t kWidth = 79;

/// Characters that a UTF-8 text shows (each code point counts as one).
std::size_t shown_width(std::string_view text);

/// The text with spaces after (or before) it, so that it shows at least `width` characters.
std::string padded(std::string_view text, std::size_t width, bool at_the_right = false);

/// Broken at spaces into lines, the first indented by `first`, the others by `indent`; each line
/// ends with a line end.
std::string wrapped(std::string_view text, std::size_t first, std::size_t indent);

/// Columns, aligned. Rows may be shorter than the head.
class TextTable {
 public:
  struct Column {
    std::string head;
    bool right = false;  ///< numbers stand at the right
  };
  explicit TextTable(std::vector<Column> columns) : columns_(std::move(columns)) {}
  void add(std::vector<std::string> row) { lines_.push_back({std::move(row), ""}); }
  /// A line of its own between the rows.
  void remark(std::string text) { lines_.push_back({{}, std::move(text)}); }
  /// All of it, each line indented.
  std::string text(std::size_t indent) const;

 private:
  struct Line {
    std::vector<std::string> cells;
    std::string remark;  ///< instead of cells
  };
  std::vector<std::size_t> widths() const;
  std::vector<Column> columns_;
  std::vector<Line> lines_;
};

}  // namespace sixty::cli
