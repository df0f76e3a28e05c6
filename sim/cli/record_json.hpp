#pragma once

#include <string>

#include "sim/run/session.hpp"

namespace sixty::cli {

/// A text as JSON, with its quotes; what is not UTF-8 becomes U+FFFD.
std::string json_text(std::string_view text);
/// A number as JSON, the shortest that reads back the same; null if it is not finite.
std::string json_number(double value);
/// The members of a record's JSON object, in the order of the columns of a CSV trace and without
/// braces; quantities that make no sense for its kind are left out.
std::string record_members(const TraceRecord& record, const Installation& installation);

}  // namespace sixty::cli
