#pragma once

#include <string>

namespace sixty::instruments {

/// "(24.05 ± 0.14) V": a reading with its uncertainty, which is told to two digits, the value to
/// the same place; both with the prefix that suits the value. Source of the form: JCGM 100:2008
/// (GUM) 7.2.2 and 7.2.6. Range: uncertainty > 0.
std::string uncertain(double value, double uncertainty, const std::string& unit);

/// "± 0.14 V".
std::string uncertainty_text(double uncertainty, const std::string& unit);

}  // namespace sixty::instruments
