#pragma once

#include <map>
#include <string>
#include <vector>

#include "sim/scene/draft.hpp"
#include "sim/scene/sheet.hpp"

namespace sixty {

/// Where each value of a part was written, for mistakes that its maker finds; without those that
/// nobody wrote.
using Origins = std::map<std::string, Written>;

/// A part's values, complete unless `sound` is false.
struct SettledPart {
  std::map<std::string, Value> values;
  Origins origins;
  bool sound = true;
};

/// The data sheets of a registry, and the owner's beside a scene, each read when it is first asked
/// for.
class SheetShelf {
 public:
  /// `scene` is the path of the scene beside whose file the owner's sheets lie.
  SheetShelf(const Registry& registry, const std::string& scene, Mistakes& mistakes)
      : registry_(registry), scene_(scene), mistakes_(mistakes) {}
  /// Errors: nullptr if the part type has no such sheet; reported.
  const Sheet* find(const Registry::Entry& kind, const std::string& name, const Place& place);

 private:
  Sheet read(const std::string& part, const SheetText& text);
  const Sheet* find_own(const Registry::Entry& kind, const std::string& name, const Place& place);
  const Registry& registry_;
  std::string scene_;
  Mistakes& mistakes_;
  std::map<std::pair<std::string, std::string>, Sheet> read_;
};

/// Gives every parameter of a part its value: what the scene or the command line sets; else the
/// sheet's, moved within its tolerance by a draw that depends on nothing but the seed and the names
/// of part and parameter; else the default.
SettledPart settle_values(const DraftPart& part, const Draft& draft, SheetShelf& shelf,
                          Mistakes& mistakes);

}  // namespace sixty
