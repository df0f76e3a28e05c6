#pragma once

#include <string>

#include "sim/scene/loader.hpp"
#include "sim/scene/schema_values.hpp"

namespace sixty::lesson {

/// Pieces that other files have too: words by language, a number of a run, and what is so in it.
schema::Json words_schema(const std::string& description);
schema::Json fact_schema();
schema::Json condition_schema();

/// JSON Schema of lessons' files.
OtherFile lesson_schema();

}  // namespace sixty::lesson
