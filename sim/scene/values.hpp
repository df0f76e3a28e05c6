#pragma once

#include <optional>
#include <string>

#include "sim/part/declaration.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty {

/// Checks a value that was written as one piece of text against its declaration. Lists and records
/// cannot be written that way and are refused.
/// Errors: nothing, and every mistake reported.
std::optional<Value> check_text(const ParamDecl& decl, const Written& written, Mistakes& mistakes);

/// The same for a value of any kind in a file's tree; `label` is what messages call it.
std::optional<Value> check_value(const ParamDecl& decl, const YamlNode& node,
                                 const std::string& label, TreeReader& reader);

/// The value that a parameter has if nobody gives one.
Value standard_value(const ParamDecl& decl);

/// What may be written there: "from 1 ohm to 100 ohm", "yes or no", "one of: a, b".
std::string expectation(const ParamDecl& decl);

/// A number brought into the declared range.
double clamped(const ParamDecl& decl, double number);

/// Whether a number lies in the declared range, but for the last digits of a conversion of units.
bool in_range(const ParamDecl& decl, double number);

}  // namespace sixty
