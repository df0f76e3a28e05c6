#pragma once

#include <string>
#include <vector>

#include "sim/part/registry.hpp"

namespace sixty::cli {

/// One value of a data sheet, as written there.
struct SheetLine {
  std::string name;
  std::string value;
  std::vector<std::string> range;  ///< least and most; empty if not given
  std::string tolerance;           ///< may be empty
  std::string source;
};

struct SheetView {
  std::string name, title, path;
  std::vector<SheetLine> values;
};

/// What a data sheet says, for showing. Order: the sheet's own.
SheetView view_of(const SheetText& sheet);

}  // namespace sixty::cli
