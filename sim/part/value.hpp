#pragma once

#include <string>
#include <utility>
#include <vector>

namespace sixty {

/// What kind of thing a parameter holds.
enum class ParamKind {
  kQuantity,  ///< number with unit
  kCount,     ///< whole number
  kFlag,      ///< yes / no
  kText,
  kChoice,   ///< one of a list of words
  kTexts,    ///< list of texts
  kRecords,  ///< list of maps with declared fields
};

/// A parameter's value, already checked against its declaration. Numbers are in SI units; flags are
/// 0 or 1; a choice is its index.
struct Value {
  double number = 0;
  std::string text;
  std::vector<std::string> texts;
  std::vector<std::vector<std::pair<std::string, Value>>> records;
};

}  // namespace sixty
