#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace sixty {

/// How a number of one unit becomes a number of another: number * multiply / divide + offset, of
/// which at least one of multiply and divide is 1.
struct UnitConversion {
  enum Match { kSameKind, kOtherKind, kUnknown };
  Match match = kUnknown;
  double multiply = 1;
  double divide = 1;
  double offset = 0;    ///< not 0 between scales of temperature
  std::string unknown;  ///< for kUnknown: the name nobody knows, or what is no unit at all
};

/// Compares two unit texts, "mN.m" with "N.m". The system of units is made at the first call, from
/// a table in the program alone (no data file, no environment, no locale). Any thread may call.
UnitConversion convert_unit(std::string_view from, std::string_view to);

/// Every name a unit text may hold, with its prefixes, in the order of the table.
const std::vector<std::string>& unit_names();

}  // namespace sixty
