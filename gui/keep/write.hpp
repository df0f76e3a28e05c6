#pragma once

#include <string>
#include <string_view>

namespace sixty::gui {

/// The text in double quotes, as a YAML file takes it: one line whatever is in it.
std::string in_quotes(std::string_view text);

/// The folder that a file lies in; "." of a bare name.
std::string folder_of(const std::string& path);

/// Makes a folder with all those above it. Errors: false, the reason in `error`.
bool make_folder(const std::string& path, std::string& error);

}  // namespace sixty::gui
