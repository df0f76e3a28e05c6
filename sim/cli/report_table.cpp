// List sections of a report as tables, long ones cut down to what is worth reading.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/report_text.hpp"

namespace sixty::cli {
namespace {

constexpr std::size_t kShownWhole = 24;  // rows
constexpr std::size_t kHead = 8, kTail = 4;
constexpr std::size_t kMostOddRows = 12;
constexpr std::size_t kMostDifferent = 6;  // values of a column that are counted one by one
constexpr std::size_t kTableIndent = 2;

const Cell* find_cell(const Row& row, const std::string& key) {
  for (const Cell& cell : row.cells()) {
    if (cell.key == key) return &cell;
  }
  return nullptr;
}

bool is_number(const Cell& cell) {
  return std::holds_alternative<double>(cell.value) ||
         std::holds_alternative<std::int64_t>(cell.value);
}

// "rate_s_per_day" in "s/day" is headed "rate (s/day)": the unit need not be said twice.
std::string head_of(const Cell& cell) {
  if (cell.unit.empty()) return words_of_key(cell.key);
  std::string tail = "_";
  for (const char c : cell.unit) {
    if (c == '/') {
      tail += "_per_";
    } else {
      tail += c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    }
  }
  std::string key = cell.key;
  if (key.size() > tail.size() && key.substr(key.size() - tail.size()) == tail) {
    key.erase(key.size() - tail.size());
  }
  return words_of_key(key) + " (" + cell.unit + ")";
}

// One column: all that is needed to show its cells alike.
struct ColumnView {
  std::string key, head;
  bool number = false;
  int decimals = 0;
  std::string most;  ///< the value of most rows, if it is that of nearly all
  bool has_most = false;
  std::string sum;  ///< what is to be said of the whole column
};

int decimals_for(double largest) {
  if (largest >= 1000) return 0;
  if (largest >= 100) return 1;
  if (largest >= 10) return 2;
  if (largest >= 1) return 3;
  return largest >= 0.01 ? 4 : 6;
}

std::string shown(const Cell* cell, int decimals) {
  if (cell == nullptr) return "";
  const double* number = std::get_if<double>(&cell->value);
  if (number == nullptr || !std::isfinite(*number)) return cell_text(Cell{"", cell->value, ""});
  return fmt::format("{:.{}f}", *number, decimals);
}

std::string range_text(const ColumnView& column, double least, double most) {
  const std::string low = fmt::format("{:.{}f}", least, column.decimals);
  const std::string high = fmt::format("{:.{}f}", most, column.decimals);
  return low == high ? fmt::format("{} {}", column.head, low)
                     : fmt::format("{} {} to {}", column.head, low, high);
}

// Looks at one column of all rows.
class ColumnStudy {
 public:
  explicit ColumnStudy(const Cell& first) {
    view_.key = first.key;
    view_.head = head_of(first);
  }
  ColumnView study(const std::vector<Row>& rows) {
    for (const Row& row : rows) look(find_cell(row, view_.key));
    view_.number = numbers_ > 0;
    view_.decimals = decimals_for(std::max(std::fabs(least_), std::fabs(most_)));
    if (doubles_ == 0) find_most(rows.size());
    sum_up();
    return view_;
  }

 private:
  void look(const Cell* cell) {
    if (cell == nullptr) return;
    if (is_number(*cell)) ++numbers_;
    const double* number = std::get_if<double>(&cell->value);
    if (number != nullptr && std::isfinite(*number)) {
      least_ = doubles_ == 0 ? *number : std::min(least_, *number);
      most_ = doubles_ == 0 ? *number : std::max(most_, *number);
      ++doubles_;
    } else if (counts_.size() <= kMostDifferent) {
      ++counts_[shown(cell, 0)];
    }
  }

  void find_most(std::size_t rows) {
    if (counts_.size() > kMostDifferent) return;
    for (const auto& [text, count] : counts_) {
      if (4 * count < 3 * rows) continue;
      view_.most = text;
      view_.has_most = true;
    }
  }

  void sum_up() {
    if (doubles_ > 0) view_.sum = range_text(view_, least_, most_);
    if (doubles_ > 0 || counts_.size() > kMostDifferent) return;
    for (const auto& [text, count] : counts_) {
      view_.sum += fmt::format("{}{} ({})", view_.sum.empty() ? view_.head + " " : ", ", text,
                               grouped(static_cast<std::int64_t>(count)));
    }
  }

  ColumnView view_;
  std::size_t numbers_ = 0, doubles_ = 0;
  double least_ = 0, most_ = 0;
  std::map<std::string, std::size_t> counts_;
};

std::vector<ColumnView> columns_of(const std::vector<Row>& rows) {
  std::vector<ColumnView> columns;
  std::set<std::string> seen;
  for (const Row& row : rows) {
    for (const Cell& cell : row.cells()) {
      if (seen.insert(cell.key).second) columns.push_back(ColumnStudy(cell).study(rows));
    }
  }
  return columns;
}

bool is_odd(const Row& row, const std::vector<ColumnView>& columns) {
  return std::any_of(columns.begin(), columns.end(), [&](const ColumnView& column) {
    return column.has_most && shown(find_cell(row, column.key), 0) != column.most;
  });
}

// Numbers of the rows that are shown.
std::vector<std::size_t> worth_showing(const std::vector<Row>& rows,
                                       const std::vector<ColumnView>& columns) {
  std::vector<std::size_t> wanted;
  std::size_t odd = 0;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const bool end = i < kHead || i + kTail >= rows.size();
    if (rows.size() <= kShownWhole || end) {
      wanted.push_back(i);
    } else if (odd < kMostOddRows && is_odd(rows[i], columns)) {
      wanted.push_back(i);
      ++odd;
    }
  }
  return wanted;
}

std::vector<std::string> cells_of(const Row& row, const std::vector<ColumnView>& columns) {
  std::vector<std::string> cells;
  for (const ColumnView& column : columns) {
    cells.push_back(shown(find_cell(row, column.key), column.decimals));
  }
  return cells;
}

std::string summary_of(const Report::Section& section, const std::vector<ColumnView>& columns) {
  std::string text =
      fmt::format("All {}: ", grouped(static_cast<std::int64_t>(section.rows.size())));
  std::string sums;
  for (const ColumnView& column : columns) {
    if (!column.sum.empty()) sums += (sums.empty() ? "" : "; ") + column.sum;
  }
  return text + sums + ".";
}

}  // namespace

std::string cell_text(const Cell& cell) {
  struct ToText {
    std::string operator()(std::monostate) const { return "-"; }
    std::string operator()(double number) const {
      return std::isfinite(number) ? fmt::format("{:.4g}", number) : "-";
    }
    std::string operator()(std::int64_t number) const { return grouped(number); }
    std::string operator()(bool flag) const { return flag ? "yes" : "no"; }
    std::string operator()(const std::string& text) const { return text; }
  };
  const std::string text = std::visit(ToText{}, cell.value);
  return cell.unit.empty() ? text : text + " " + cell.unit;
}

std::string section_text(const Report::Section& section) {
  const std::vector<ColumnView> columns = columns_of(section.rows);
  std::vector<TextTable::Column> heads;
  for (const ColumnView& column : columns) heads.push_back({column.head, column.number});
  TextTable table(std::move(heads));
  const std::vector<std::size_t> rows = worth_showing(section.rows, columns);
  std::size_t next = 0;
  for (const std::size_t row : rows) {
    if (row > next) table.remark(fmt::format("... {} more", row - next));
    table.add(cells_of(section.rows[row], columns));
    next = row + 1;
  }
  std::string text = table.text(kTableIndent);
  if (rows.size() < section.rows.size()) {
    text += wrapped(summary_of(section, columns), kTableIndent, kTableIndent + 2);
  }
  return text;
}

}  // namespace sixty::cli
