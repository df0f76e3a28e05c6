#pragma once

#include <string>
#include <vector>

#include "sim/base/diagnostic.hpp"
#include "sim/scene/installation.hpp"

namespace sixty::cli {

/// One reading of one part, followed in a trace.
struct Signal {
  PartId part = 0;
  std::size_t reading = 0;
  std::string name;  ///< "part.reading"
  std::string unit;  ///< empty: not a number, but yes or no
  bool is_flag() const { return unit.empty(); }
  /// Whether a unit is to be shown beside its numbers: not with flags and plain numbers.
  bool has_unit() const { return !unit.empty() && unit != "1"; }
};

/// Finds what lists like "part.reading,part.*" name, in their order, each once.
/// Errors: every name that is unknown is reported, with the nearest that is known.
std::vector<Signal> find_signals(const std::vector<std::string>& lists,
                                 const Installation& installation, Diagnostics& mistakes);

/// Number of the part that an option names. Errors: reported; the result is then parts.size().
PartId find_part(const std::string& option, const std::string& name,
                 const Installation& installation, Diagnostics& mistakes);

}  // namespace sixty::cli
