#include "tests/circuit/table.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <stdexcept>

namespace sixty::circuit {
namespace {

std::vector<std::string> split(const std::string& line) {
  std::vector<std::string> cells(1);
  for (const char c : line) {
    if (c == ',') {
      cells.emplace_back();
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  return cells;
}

}  // namespace

Table Table::read(const std::string& name) {
  return read_file(SIXTY_SOURCE_DIR "/tests/circuit/cases/" + name + ".csv");
}

Table Table::read_file(const std::string& path) {
  std::ifstream file(path);
  std::string line;
  if (!std::getline(file, line)) throw std::runtime_error("no table " + path);
  Table table;
  table.columns_ = split(line);
  while (std::getline(file, line)) {
    table.cells_.push_back(split(line));
    if (table.cells_.back().size() != table.columns_.size()) {
      throw std::runtime_error(path + ": not " + std::to_string(table.columns_.size()) +
                               " cells: " + line);
    }
  }
  return table;
}

std::size_t Table::place(const std::string& column) const {
  // A trace's signals have their unit behind their name.
  const auto named = [&](const std::string& head) {
    return head == column || head.rfind(column + " (", 0) == 0;
  };
  const auto found = std::find_if(columns_.begin(), columns_.end(), named);
  if (found == columns_.end()) throw std::runtime_error("no column " + column);
  return static_cast<std::size_t>(found - columns_.begin());
}

const std::string& Table::text(std::size_t row, const std::string& column) const {
  return cells_.at(row)[place(column)];
}

std::optional<double> Table::number(std::size_t row, const std::string& column) const {
  const std::string& cell = text(row, column);
  if (cell.empty()) return std::nullopt;
  return std::stod(cell);
}

double Table::largest(const std::string& column) const {
  double most = 0;
  for (std::size_t row = 0; row < rows(); ++row) {
    most = std::max(most, std::fabs(number(row, column).value_or(0)));
  }
  return most;
}

}  // namespace sixty::circuit
