#pragma once

#include <map>
#include <string>

#include "sim/part/registry.hpp"
#include "sim/scene/values.hpp"

namespace sixty {

/// How far real pieces stray from a data sheet's value, drawn evenly to both sides.
struct Tolerance {
  double size = 0;        ///< Range: >= 0
  bool relative = false;  ///< a share of the value, otherwise in the parameter's unit
};

/// One value of a data sheet.
struct SheetValue {
  Value value;
  Tolerance tolerance;
  Written written;  ///< text empty for lists
};

/// A data sheet, checked against its part's declaration.
struct Sheet {
  std::map<std::string, SheetValue> values;
  bool sound = false;  ///< without a mistake
};

/// Reads a data sheet's tree. `part` is the part type it is wanted for; empty: whichever it names.
/// Errors: reported; what could be read is returned.
Sheet read_sheet(const YamlNode& root, const std::string& file, const std::string& part,
                 const Registry& registry, Mistakes& mistakes);

}  // namespace sixty
