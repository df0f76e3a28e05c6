#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/run/session.hpp"
#include "sim/scene/loader.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty::gui {

/// A moment of a run: all that is needed to come back to exactly there. Kept as a small YAML file;
/// sixtybeats writes and reads it with the scene's own words.
struct Moment {
  std::string scene;             ///< its file
  std::vector<std::string> set;  ///< values changed on the command line: "part.parameter=QUANTITY"
  std::shared_ptr<const Installation> installation;
  std::vector<Action> actions;  ///< besides those of the scene, in their order
  SimTime at = 0;
  std::uint64_t state = 0;  ///< hash of all state, to tell whether it is the same again
  bool kept = true;         ///< in a file; otherwise it is a scene's start, and there is no hash
};

/// The moment at which a session of this installation is, with its log, its time and the hash of
/// its state. `scene` and `set` are what the installation was loaded with.
Moment moment_of(std::shared_ptr<const Installation> installation, const std::string& scene,
                 const std::vector<std::string>& set, const std::vector<Action>& log, SimTime at,
                 std::uint64_t state);

/// What the file at `path` would hold: the scene is told from the file's own folder if it lies in
/// or below it.
std::string moment_text(const Moment& moment, const std::string& path);

/// Errors: false, the reason in `error`; an older file is then as it was.
bool save_moment(const Moment& moment, const std::string& path, std::string& error);

/// Whether a YAML file's tree is that of a moment rather than of a scene.
bool is_moment(const YamlNode& root);

/// Reads a moment and loads its scene. What does not fit (any more) is reported with its place, and
/// nothing is returned.
std::optional<Moment> open_moment(const std::string& path, const Registry& registry,
                                  Diagnostics& mistakes);

/// Opens a file of either kind: a scene, with changes as on the command line, or a moment, which
/// has its own. Errors: nothing, reported; whatever is open may stay so.
std::optional<Moment> open_file(const std::string& path, const Registry& registry,
                                const SceneChanges& changes, Diagnostics& mistakes);

/// Brings a fresh session of the moment's installation there. Returns whether all is as it was when
/// the moment was saved; otherwise the scene, its data sheets or the program have changed since.
bool go_to(const Moment& moment, Session& session);

}  // namespace sixty::gui
