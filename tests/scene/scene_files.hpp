#pragma once

#include <memory>
#include <string>
#include <vector>

#include "sim/scene/loader.hpp"

namespace sixty::fake {

/// Path of a file beside these tests: "bad/wires.yaml".
std::string beside(const std::string& name);
/// Files with one ending in a folder beside these tests, sorted.
std::vector<std::string> files_in(const std::string& folder, const std::string& ending);
/// All bytes of a file.
std::string text_of(const std::string& path);

/// Outcome of loading a scene.
struct Loaded {
  std::shared_ptr<const Installation> scene;
  Diagnostics diagnostics;
};
/// Loads a scene given as text, as if from a file "scene.yaml".
Loaded load_text(const std::string& text, const Registry& registry,
                 const SceneChanges& changes = {});
/// Checks a text as a file of the given name; returns the mistakes as text, with the bare name.
std::string check_text_as(const std::string& name, const std::string& text,
                          const Registry& registry);

}  // namespace sixty::fake
