#pragma once

#include <functional>

#include "sim/scene/tree_reader.hpp"
#include "sim/tour/tour.hpp"

namespace sixty {

/// Takes "... draws {part.reading} ..." apart; {part.reading:1} is the number alone, with one
/// decimal, and {-part.reading} has the other sign. Errors: reported.
Saying read_saying(const Written& written, const Installation& installation, Mistakes& mistakes);

/// It with its readings put in. `value`: of one of them.
std::string said(const Saying& saying, const Installation& installation,
                 const std::function<double(const ReadingOf&)>& value);

/// In that language, else in English.
const Saying& in_language(const Sayings& sayings, const std::string& language);

}  // namespace sixty
