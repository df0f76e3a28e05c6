#pragma once

#include <gtest/gtest.h>

#include <string>
#include <vector>

#include "sim/part/report.hpp"

namespace sixty {

/// Rows of a section of a report; none if there is no such section.
inline const std::vector<Row>& rows_of(const Report& report, const std::string& name) {
  static const std::vector<Row> none;
  for (const Report::Section& section : report.sections()) {
    if (section.name == name) return section.rows;
  }
  return none;
}

/// Value under a key. Errors: fails the test, and returns T's own.
template <class T>
T value_in(const Row& row, const std::string& key) {
  for (const Cell& cell : row.cells()) {
    if (cell.key == key && std::holds_alternative<T>(cell.value)) return std::get<T>(cell.value);
  }
  ADD_FAILURE() << "no such value: " << key;
  return T{};
}
inline std::int64_t count_in(const Row& row, const std::string& key) {
  return value_in<std::int64_t>(row, key);
}
inline double number_in(const Row& row, const std::string& key) {
  return value_in<double>(row, key);
}
inline std::string text_in(const Row& row, const std::string& key) {
  return value_in<std::string>(row, key);
}

}  // namespace sixty
