#pragma once

#include <string>
#include <vector>

#include "sim/scene/fault.hpp"

namespace sixty::cli {

/// A fault, and the parts of a scene that it can strike; without a scene none.
struct FaultLine {
  std::shared_ptr<const Fault> fault;
  std::vector<std::string> parts;
};

/// A table; `with_parts` tells how many parts each can strike.
std::string faults_text(const std::vector<FaultLine>& lines, bool with_parts);
/// One fault in full.
std::string fault_text(const FaultLine& line, bool with_parts);
std::string faults_json(const std::vector<FaultLine>& lines, bool with_parts);

}  // namespace sixty::cli
