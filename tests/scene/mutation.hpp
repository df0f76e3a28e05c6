#pragma once

#include <string>

namespace sixty::fake {

/// One change to a text: a piece taken out, doubled, moved, or replaced by something odd. Only
/// inside a property of rapidcheck, which chooses.
std::string mutated(std::string text);

}  // namespace sixty::fake
