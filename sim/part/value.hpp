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
  std::string text;          ///< a number's is as it was written
  std::vector<Value> items;  ///< of a list of texts
  int line = 0, column = 0;  ///< where it was written in its file, from 1; 0: nowhere
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

/// A list of texts that nobody wrote down: the standard of a parameter.
inline Value list_of(const std::vector<std::string>& texts) {
  Value list;
  for (const std::string& text : texts) {
    list.items.emplace_back();
    list.items.back().text = text;
  }
  return list;
}

}  // namespace sixty
