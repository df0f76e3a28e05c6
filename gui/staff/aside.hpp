#pragma once

#include <string>

namespace sixty::gui {

/// Keeps a file that cannot be read beside itself with the ending ".damaged", in place of an
/// earlier one: a copy, or the file itself where it cannot be copied.
/// Errors: false, the reason in `error`; then the file must not be written over.
bool set_aside(const std::string& path, std::string& error);

/// Removes what a program that was killed while it wrote that file has left beside it (the hidden
/// neighbours of WholeFile), unless a process of that number runs. What cannot be removed stays.
void remove_leftovers(const std::string& path);

}  // namespace sixty::gui
