// Files of observations and of signs, checked without running anything.
#include "sim/diagnose/library.hpp"
#include "sim/diagnose/observation.hpp"
#include "sim/scene/beside.hpp"
#include "sim/scene/loader.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty::diagnose {

bool is_observations(const YamlNode& root) { return root.find("observations") != nullptr; }

bool is_signs(const YamlNode& root) { return root.find("signs") != nullptr; }

void check_observations(const YamlNode& root, const std::string& file, const Registry& registry,
                        Mistakes& mistakes) {
  TreeReader reader(file, mistakes);
  const YamlNode& scene = *root.find("observations");
  if (!reader.is_scalar(scene, "observations", "the scene's name")) return;
  const std::string path = scene_beside(file, scene.scalar);
  if (path.empty()) {
    reader.add(scene, "observations", "there is no such scene",
               "a scene beside this file or one folder up",
               "correct the name, or put the file beside its scene");
    return;
  }
  const auto installation = load_scene(path, registry, as_watched({}), mistakes.diagnostics());
  const SignBook book(registry, mistakes);
  if (installation == nullptr) return;
  read_observations(root, file, *installation, signs_of(*installation, book), {}, mistakes);
}

void check_signs(const YamlNode& root, const std::string& file, const Registry& registry,
                 Mistakes& mistakes) {
  TreeReader reader(file, mistakes);
  const YamlNode& part = *root.find("signs");
  if (!reader.is_scalar(part, "signs", "a part type")) return;
  if (const Registry::Entry* kind = registry.find(part.scalar)) {
    read_signs(root, file, *kind, mistakes);
    return;
  }
  std::vector<std::string> names;
  for (const auto& [name, entry] : registry.entries()) names.push_back(name);
  mistakes.add_unknown(reader.place(part), "signs", "part type", part.scalar, names);
}

}  // namespace sixty::diagnose
