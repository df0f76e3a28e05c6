#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/part/registry.hpp"
#include "sim/scene/loader.hpp"

namespace sixty::gui {

/// Who found a value, when and how, in the owner's words.
struct Provenance {
  std::string who, when, how;
};

/// A part's values as its owner found them, to be kept as a data sheet.
struct OwnSheet {
  std::string part;  ///< its name in the scene
  std::string name;  ///< of the sheet, with own_ before it
  /// Which values, each as it is written: "118 ohm".
  std::vector<std::pair<std::string, std::string>> values;
  Provenance provenance;
  /// A part that the scene writes together with others ("clock_{n}") takes the sheet with all of
  /// them; otherwise it is refused.
  bool all_alike = false;
};

/// Both files as they would be written.
struct OwnSheetFiles {
  std::string sheet_path, sheet_text, scene_text;
};

/// The part's sheet as it is, with the owner's values in place, under the new name; and the scene's
/// text in which the part takes it: nothing else of either text is changed. `scene_path` is where
/// that text lies or will lie. Errors: nothing, reported.
std::optional<OwnSheetFiles> with_own_sheet(const OwnSheet& own, const std::string& scene_text,
                                            const std::string& scene_path, const Registry& registry,
                                            Diagnostics& mistakes);

/// Writes both, after the scene has been loaded with them. Errors: false, reported; then both
/// files are as they were.
bool save_own_sheet(const OwnSheetFiles& files, const std::string& scene_path,
                    const Registry& registry, Diagnostics& mistakes);

}  // namespace sixty::gui
