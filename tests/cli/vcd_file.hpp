#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

namespace sixty::cli {

/// A value change dump, read strictly. Source of the grammar: IEEE Std 1364-2005 clause 18
/// (FMT-19 to FMT-25, published).
struct VcdFile {
  struct Variable {
    std::string type, code, name;  ///< name with its scopes: "hall.lamp.current"
    int bits = 0;
  };
  struct Change {
    std::int64_t at = 0;
    std::string name;
    std::string value;  ///< "0", "1", "x" ... or a real's or vector's digits
  };
  std::string timescale;  ///< "1 ns"
  std::vector<Variable> variables;
  std::vector<Change> changes;
  std::int64_t last_time = -1;

  /// Changes of one variable in their order.
  std::vector<Change> of(const std::string& name) const;
};

/// Errors: what is wrong in `error`, otherwise that is empty.
VcdFile read_vcd(const std::string& text, std::string& error);

}  // namespace sixty::cli
