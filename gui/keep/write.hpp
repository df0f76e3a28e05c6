#pragma once

#include <string>

namespace sixty::gui {

/// The folder that a file lies in; "." of a bare name.
std::string folder_of(const std::string& path);

/// Makes a folder with all those above it. Errors: false, the reason in `error`.
bool make_folder(const std::string& path, std::string& error);

}  // namespace sixty::gui
