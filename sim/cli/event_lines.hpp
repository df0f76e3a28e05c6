#pragma once

#include <string>

#include "sim/cli/cause_book.hpp"

namespace sixty::cli {

/// One event for people: address, what was measured, cause; its conditions on lines below.
std::string event_lines(const TraceRecord& record, const CauseBook& book);

/// The same as one JSON object, without a line end.
std::string event_object(const TraceRecord& record, const CauseBook& book,
                         const Installation& installation);

}  // namespace sixty::cli
