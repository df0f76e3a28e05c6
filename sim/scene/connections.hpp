#pragma once

#include <optional>
#include <vector>

#include "sim/scene/draft.hpp"

namespace sixty {

/// Which offered link a part's taken link is.
struct LinkSource {
  PartId part = 0;
  std::size_t offered = 0;
};

/// Per part, per taken link; empty where nothing is connected.
using LinkSources = std::vector<std::vector<std::optional<LinkSource>>>;

/// Connects inputs to outputs and taken links to offered ones. Fills in the listeners and takers of
/// the installation's parts, which must be there with their types.
/// Errors: reported.
LinkSources connect_parts(const Draft& draft, Installation& installation, Mistakes& mistakes);

}  // namespace sixty
