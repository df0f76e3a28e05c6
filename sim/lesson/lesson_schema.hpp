#pragma once

#include <string>

#include "sim/scene/loader.hpp"
#include "sim/scene/schema_values.hpp"

namespace sixty::lesson {

/// Pieces that other files have too: words by language, a number of a run, and what is so in it.
schema::Json words_schema(const std::string& description);
schema::Json fact_schema();
schema::Json condition_schema();
/// Adds what every piece of a run has: when, from where, how fast, what is done and what is so.
void add_run_schema(schema::Json& json);

/// JSON Schema of lessons' files.
OtherFile lesson_schema();

}  // namespace sixty::lesson
