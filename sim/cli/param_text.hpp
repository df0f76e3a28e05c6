#pragma once

#include <string>

#include "sim/part/declaration.hpp"

namespace sixty::cli {

/// "quantity", "whole number", "yes or no" ...: what a parameter takes, in words.
std::string kind_text(ParamKind kind);

/// "0.1 ohm to 100 kohm", "0 to 59", "open or closed"; empty if there are no bounds.
std::string bounds_text(const ParamDecl& param);

/// Its default as a person writes it; empty if it has none.
std::string default_text(const ParamDecl& param);

}  // namespace sixty::cli
