#pragma once

#include "sim/scene/loader.hpp"

namespace sixty::exhibit {

/// JSON Schema of exhibits' files.
OtherFile exhibit_schema();

}  // namespace sixty::exhibit
