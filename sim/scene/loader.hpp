#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/base/diagnostic.hpp"
#include "sim/scene/draft.hpp"
#include "sim/scene/installation.hpp"

namespace sixty {

/// What the command line adds to a scene before it is built.
struct SceneChanges {
  std::optional<std::uint64_t> seed;
  std::optional<int> begins_on;      ///< day of the week (ISO 8601): the last one up to its start
  std::vector<std::string> set;      ///< "part.parameter=QUANTITY"
  std::vector<std::string> action;   ///< "TIME part.command [QUANTITY]"
  std::optional<Specimen> specimen;  ///< another one of the same make
  Assumptions assumptions;           ///< that it is built under
  bool sound = false;                ///< leave all faults out, also the scene's own
  std::vector<std::string> fault;    ///< "ID@PART[:SEVERITY][,from=TIME][,until=TIME][,course=...]"
};

/// Reads, checks and builds a scene. All mistakes of the file (and of the changes) are reported in
/// one go; nothing is returned if there is one. The registry must outlive the installation.
std::shared_ptr<const Installation> load_scene(const std::string& path, const Registry& registry,
                                               const SceneChanges& changes,
                                               Diagnostics& diagnostics);

/// The same for the text that a file at `path` has or would have.
std::shared_ptr<const Installation> load_scene_text(std::string_view text, const std::string& path,
                                                    const Registry& registry,
                                                    const SceneChanges& changes,
                                                    Diagnostics& diagnostics);

/// Checks one file of any kind that the program reads (scene, data sheet or faults of a part type),
/// by its keys.
void check_file(const std::string& path, const Registry& registry, Diagnostics& diagnostics);

/// A kind of file that another layer reads, told by a key of its own.
struct OtherFile {
  std::string key;
  std::string schema;  ///< as JSON
};

/// JSON Schema (draft-07) of scene files and data sheets, made from the parts' declarations, and of
/// others.
std::string scene_schema(const Registry& registry, const std::vector<OtherFile>& others = {});

}  // namespace sixty
