#pragma once

#include <optional>
#include <string>
#include <vector>

namespace sixty::circuit {

/// Reference values of one table of one case, kept as comma-separated text in tests/circuit/cases.
/// Everything in SI units; an empty cell means that there is no value.
class Table {
 public:
  /// Errors: throws std::runtime_error if there is no such file or a row is too short.
  static Table read(const std::string& name);
  /// The same from any file, a trace for instance.
  static Table read_file(const std::string& path);

  std::size_t rows() const { return cells_.size(); }
  const std::vector<std::string>& columns() const { return columns_; }
  const std::string& text(std::size_t row, const std::string& column) const;
  std::optional<double> number(std::size_t row, const std::string& column) const;
  /// Largest size in a column. Units: the column's.
  double largest(const std::string& column) const;

 private:
  std::size_t place(const std::string& column) const;
  std::vector<std::string> columns_;
  std::vector<std::vector<std::string>> cells_;
};

}  // namespace sixty::circuit
