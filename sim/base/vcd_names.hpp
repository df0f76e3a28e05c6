#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace sixty {

/// Names in a value change dump. Source: IEEE 1364-2005, clause 18.
/// Identifier code of a variable: printable characters, "!" to "~", the shortest first.
std::string identifier_code(std::size_t number);
/// A simple identifier: letters, digits and underscores, no digit at the head.
std::string simple_identifier(std::string_view text);

}  // namespace sixty
