#pragma once

#include <imgui/imgui.h>

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "gui/keep/own_sheet.hpp"
#include "sim/scene/installation.hpp"

namespace sixty::gui {

/// Where a data sheet, built in or the owner's, has its values from.
struct SheetSources {
  /// What the sheet says of one value, all as written.
  struct Line {
    std::string value, tolerance, source;
  };
  std::string title;
  std::map<std::string, Line> lines;  ///< by value
  /// How many values have no published source.
  std::size_t unpublished() const;
};
/// `scene`: the file beside which the owner's sheets lie. Empty where the part has no sheet.
SheetSources sources_of(const PartInstance& part, const std::string& scene);

/// What may be written for a value, in the spoken language; its numbers as they are read again.
std::string spoken_expectation(const ParamDecl& decl);

/// The values of a part on its card: each can be written over, and all that were kept as the
/// owner's own data sheet.
class ValuesPanel {
 public:
  /// Order: within the part's card. Returns what is to be kept, once its button has been pressed.
  std::optional<OwnSheet> show(const PartInstance& part, const std::string& scene);
  /// What became of it: empty: it was kept, and what was written over is forgotten.
  void tell(const std::vector<Diagnostic>& mistakes);

 private:
  void begin(const PartInstance& part, const std::string& scene);
  std::string origin_of(const PartInstance& part, const ParamDecl& decl) const;
  void show_sheet(const PartInstance& part) const;
  void show_values(const PartInstance& part);
  void show_value(const PartInstance& part, const ParamDecl& decl);
  bool edit(const ParamDecl& decl, std::string& words);
  std::optional<OwnSheet> show_keeping(const PartInstance& part);

  SheetSources sources_;
  std::string part_;                            ///< whose values were written over
  std::map<std::string, std::string> written_;  ///< by value
  std::string name_;
  Provenance provenance_;
  bool all_alike_ = false;
  std::vector<Diagnostic> told_;
};

}  // namespace sixty::gui
