#pragma once

#include <string>
#include <vector>

namespace sixty::gui {

/// A form of scenes/forms as text, compiled in.
struct FormFiles {
  std::string fields;  ///< NAME.form
  std::string path;    ///< its place in the tree, for messages
  std::string scene;   ///< NAME.scene
};
std::vector<FormFiles> form_files();

}  // namespace sixty::gui
