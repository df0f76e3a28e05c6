#pragma once

#include "sim/scene/loader.hpp"

namespace sixty::diagnose {

/// JSON Schema of files of observations, with the words of all signs and circumstances that there
/// are.
OtherFile observation_schema(const Registry& registry);

}  // namespace sixty::diagnose
