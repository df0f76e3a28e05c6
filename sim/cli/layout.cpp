#include "sim/cli/layout.hpp"

#include <algorithm>

namespace sixty::cli {
namespace {

std::string row_text(const std::vector<std::string>& cells, const std::vector<std::size_t>& widths,
                     const std::vector<TextTable::Column>& columns, std::size_t indent) {
  std::string line(indent, ' ');
  for (std::size_t i = 0; i < cells.size() && i < widths.size(); ++i) {
    if (i > 0) line += "  ";
    line += padded(cells[i], widths[i], columns[i].right);
  }
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

}  // namespace

std::size_t shown_width(std::string_view text) {
  const auto begins = [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; };
  return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), begins));
}

std::string padded(std::string_view text, std::size_t width, bool at_the_right) {
  const std::size_t shown = shown_width(text);
  const std::string spaces(width > shown ? width - shown : 0, ' ');
  return at_the_right ? spaces + std::string(text) : std::string(text) + spaces;
}

std::string wrapped(std::string_view text, std::size_t first, std::size_t indent) {
  std::string out;
  std::string line(first, ' ');
  bool empty = true;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find(' '), text.size());
    const std::string_view word = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (word.empty()) continue;
    if (!empty && shown_width(line) + 1 + shown_width(word) > kWidth) {
      out += line + "\n";
      line.assign(indent, ' ');
      empty = true;
    }
    if (!empty) line += ' ';
    line += word;
    empty = false;
  }
  return out + line + "\n";
}

std::vector<std::size_t> TextTable::widths() const {
  std::vector<std::size_t> widths;
  for (const Column& column : columns_) widths.push_back(shown_width(column.head));
  for (const Line& line : lines_) {
    for (std::size_t i = 0; i < line.cells.size() && i < widths.size(); ++i) {
      widths[i] = std::max(widths[i], shown_width(line.cells[i]));
    }
  }
  return widths;
}

std::string TextTable::text(std::size_t indent) const {
  const std::vector<std::size_t> width = widths();
  std::vector<std::string> heads;
  for (const Column& column : columns_) heads.push_back(column.head);
  std::string out = row_text(heads, width, columns_, indent);
  for (const Line& line : lines_) {
    out += line.cells.empty() ? std::string(indent, ' ') + line.remark + "\n"
                              : row_text(line.cells, width, columns_, indent);
  }
  return out;
}

}  // namespace sixty::cli
