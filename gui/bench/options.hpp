#pragma once

#include <memory>
#include <string>
#include <vector>

#include "sim/base/diagnostic.hpp"
#include "sim/scene/loader.hpp"

namespace sixty::gui {

/// What the command line asks for.
struct Options {
  std::string scene;
  SceneChanges changes;
  std::string at;             ///< TIME; empty: the start
  std::string view = "case";  ///< building, case or part:NAME
  unsigned width = 1280, height = 800;
  bool light = false;
  std::string screenshot;  ///< file; empty: none
  std::string fonts;       ///< folder
  int measure_frames = 0;
};

/// Errors: reported, or help was asked for; then false, and `exit_code` is the program's.
bool read_options(int argc, char** argv, Options& options, int& exit_code);

/// An installation with where it is looked at first.
struct Opening {
  std::shared_ptr<const Installation> installation;
  SimTime at = 0;
};
/// Errors: reported.
Opening open_scene(const Options& options, const Registry& registry, Diagnostics& mistakes);

}  // namespace sixty::gui
