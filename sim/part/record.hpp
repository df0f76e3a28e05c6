#pragma once

#include <string_view>

#include "sim/part/value.hpp"

namespace sixty {

/// A field of a record, an empty value if it is not given.
inline const Value& field_of(const Value::Record& record, std::string_view name) {
  static const Value none;
  for (const auto& [key, value] : record) {
    if (key == name) return value;
  }
  return none;
}

}  // namespace sixty
