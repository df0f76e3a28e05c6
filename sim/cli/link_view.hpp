#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "sim/explain/link.hpp"
#include "sim/scene/installation.hpp"

namespace sixty::cli {

/// Links as numbered sentences, and as data.
std::string links_text(const std::vector<explain::Link>& links);
nlohmann::ordered_json links_json(const std::vector<explain::Link>& links,
                                  const Installation& scene);

}  // namespace sixty::cli
