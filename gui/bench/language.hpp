#pragma once

#include <string>

#include "sim/words/words.hpp"

namespace sixty::gui {

/// Of what the command line, the settings and the system (LC_ALL, LC_MESSAGES, LANG) ask for, the
/// first that asks for a language there is; English where none does. Range: codes, "de"; of the
/// system "de_AT.UTF-8" too; empty: asks for nothing.
const Language& chosen_language(const std::string& command_line, const std::string& settings);

}  // namespace sixty::gui
