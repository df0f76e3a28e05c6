#pragma once

#include <string>
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
  struct Field;
  using Record = std::vector<Field>;
  std::vector<Record> records;
};

/// One field of a record, by its declared name. (A std::pair asks what a Value can do before the
/// Value is complete, which not every compiler answers.)
struct Value::Field {
  std::string name;
  Value value;
};

}  // namespace sixty
