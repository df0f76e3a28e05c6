#pragma once

#include <string>

#include "sim/explain/answer.hpp"
#include "sim/scene/mistakes.hpp"

namespace sixty::explain {

/// Reads "starts hall_clock @ Mon 10:15:35": a kind of event, or the word that people have for it,
/// and a part; or what several parts have in common: "ring zone-2 @ Mon 10:15" asks about all that
/// ring and whose `zone` is 2, "step first floor @ ..." about the clocks of that loop, "ring yard @
/// ..." about all that ring in that room. A time without seconds means that minute, else half a
/// minute about it. Errors: reported.
Question read_question(const Written& written, const Installation& scene, Mistakes& mistakes);

}  // namespace sixty::explain
