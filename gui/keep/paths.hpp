#pragma once

#include <string>
#include <vector>

namespace sixty::gui {

/// What a path that somebody has begun to write may go on as: folders, ended by "/", and YAML files
/// whose name begins so, in order of their names; "~/" is the home folder. Hidden ones only where
/// the name begins with a point. Range: at most 200.
std::vector<std::string> completions(const std::string& begun);

/// The longest beginning that all of them have; `begun` itself if there are none.
std::string completed(const std::string& begun, const std::vector<std::string>& candidates);

/// "~/" at the beginning as the home folder.
std::string with_home(const std::string& path);

}  // namespace sixty::gui
