#pragma once

#include <string>
#include <vector>

#include "sim/base/diagnostic.hpp"

/// Reporting mistakes of the command line.
namespace sixty::cli {

void add_mistake(Diagnostics& mistakes, std::string what, std::string found, std::string expected,
                 std::string mend);

/// A name that is none of the candidates: shows what there is and the one that was perhaps meant.
/// `what` says it in a clause ("--part: the scene has no part of this name").
void add_unknown(Diagnostics& mistakes, std::string what, const std::string& name,
                 const std::vector<std::string>& candidates);

/// "a, b, c"; what is beyond two dozen is left out.
std::string listed(const std::vector<std::string>& names);

/// Names of things that have one.
template <class Named>
std::vector<std::string> all_names(const std::vector<Named>& things) {
  std::vector<std::string> names;
  for (const Named& thing : things) names.push_back(thing.name);
  return names;
}

}  // namespace sixty::cli
