#pragma once

#include <string_view>

#include "sim/base/diagnostic.hpp"

namespace sixty::cli {

/// To standard output.
void print(std::string_view text);
/// Not only with the rest: there is more to come, and it takes its time.
void print_now(std::string_view text);
/// To standard error.
void complain(std::string_view text);

/// Shows all mistakes. Returns kBadInput.
int refuse(const Diagnostics& mistakes);
/// Sends what is still on its way to standard output. Returns `code`, or kCouldNotWrite (and says
/// so) if anything of it got lost.
int end_output(int code);

}  // namespace sixty::cli
