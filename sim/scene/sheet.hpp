#pragma once

#include <map>
#include <string>
#include <string_view>

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

/// An owner's data sheet has a name that begins so, and lies beside the scenes that take it.
constexpr std::string_view kOwnSheet = "own_";
bool is_own_sheet(std::string_view name);
/// Where the owner's sheet of that name lies for a scene: in the folder "sheets" beside its file.
std::string own_sheet_path(const std::string& scene, const std::string& name);

/// Reads a data sheet's tree. `part` is the part type it is wanted for; empty: whichever it names.
/// Errors: reported; what could be read is returned.
Sheet read_sheet(const YamlNode& root, const std::string& file, const std::string& part,
                 const Registry& registry, Mistakes& mistakes);

}  // namespace sixty
