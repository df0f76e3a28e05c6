#pragma once

#include <string>

namespace sixty::gui {

/// Keeps a file that cannot be read beside itself with the ending ".damaged", in place of an
/// earlier one: a copy, or the file itself where it cannot be copied.
/// Errors: false, the reason in `error`; then the file must not be written over.
bool set_aside(const std::string& path, std::string& error);

}  // namespace sixty::gui
