#pragma once

#include "sim/scene/loader.hpp"

namespace sixty::lesson {

/// JSON Schema of lessons' files.
OtherFile lesson_schema();

}  // namespace sixty::lesson
