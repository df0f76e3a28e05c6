#pragma once

#include <string>

#include "gui/bench/runner.hpp"

namespace sixty::gui {

/// How fast a run goes, in words: "200 times slower".
std::string pace_words(const Runner::Seen& seen);

}  // namespace sixty::gui
