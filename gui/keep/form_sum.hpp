#pragma once

#include <functional>
#include <optional>
#include <string>
#include <string_view>

namespace sixty::gui {

/// What the names in a sum stand for.
struct SumNames {
  /// The number of a name. Errors: nothing.
  std::function<std::optional<double>(const std::string& name)> number;
  /// The sum over all entries of a group. Errors: nothing.
  std::function<std::optional<double>(const std::string& group, std::string_view sum)> over;
};

/// Works out "24 / 0.22 - 6 * clocks": numbers, names, + - * / and brackets; max(a, b), min(a, b),
/// and sum(GROUP, SUM) over the entries of a group. Errors: nothing.
std::optional<double> work_out(std::string_view sum, const SumNames& names);

}  // namespace sixty::gui
