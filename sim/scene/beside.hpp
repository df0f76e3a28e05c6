#pragma once

#include <string>

namespace sixty {

/// The file of a scene that another file is about: beside that file, or one folder up. Errors: an
/// empty text, if there is none.
std::string scene_beside(const std::string& file, const std::string& scene);

}  // namespace sixty
