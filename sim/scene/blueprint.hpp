#pragma once

#include <string>
#include <vector>

#include "sim/scene/draft.hpp"
#include "sim/scene/hookup.hpp"
#include "sim/scene/settle.hpp"

namespace sixty {

/// What an installation was built from, kept to build it again with other values.
struct Blueprint {
  Draft draft;
  std::vector<SettledPart> settled;
};

/// A value of a part that is not as in its installation.
struct ChangedValue {
  PartId part = 0;
  std::string param;
  Value value;
};

/// The same installation with some of its values changed, and meters laid on; without its script.
/// Errors: nothing, reported, where a part refuses the value.
std::shared_ptr<const Installation> rebuild(const Installation& installation,
                                            const std::vector<ChangedValue>& changed,
                                            const Hookups& hookups, Diagnostics& diagnostics);

/// Whether one build can take the place of another while it runs: all that has a state of its own
/// is in both.
bool can_replace(const Installation& a, const Installation& b);

}  // namespace sixty
