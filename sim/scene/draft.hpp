#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/clock_time.hpp"
#include "sim/scene/installation.hpp"
#include "sim/scene/mistakes.hpp"
#include "sim/scene/plan.hpp"

namespace sixty {

/// A value given for a parameter by the scene, the command line or a data sheet.
struct GivenValue {
  Value value;
  Written written;
};

/// "own: part.output": what a part is connected to.
struct DraftConnection {
  Written own;
  std::vector<Written> sources;
};

/// A part as the scene describes it.
struct DraftPart {
  std::string name;
  Place place;
  const Registry::Entry* kind = nullptr;  ///< none if the type is not known
  std::string room;                       ///< of the plan, or empty
  std::string notes;                      ///< what is worth knowing of this one; may be empty
  std::string sheet;
  Place sheet_place;
  std::map<std::string, GivenValue> given;  ///< by parameter; no tolerance applies to these
  bool values_sound = true;  ///< no mistake in what was given, so that what misses can be told
  std::vector<DraftConnection> connections;
};

struct DraftNet {
  std::string name;
  Place place;
  std::vector<Written> terminals;
};

struct DraftAction {
  Written time;
  Written action;
};

/// An installation of the same make whose parts differ from those of the scene's seed.
struct Specimen {
  std::uint64_t number = 0;    ///< one of many
  double least_tolerance = 0;  ///< of all values that are not made to within a hundredth anyway
  std::uint64_t week = 0;      ///< the same one at another time, when all is a little other
};

/// A scene as written: every piece with its place, names not yet looked up across parts.
struct Draft {
  std::string title;
  CivilClock clock;
  bool start_known = false;
  std::uint64_t seed = 1;
  double spread = 1;
  std::optional<Specimen> specimen;
  Assumptions assumptions;
  Plan plan;
  std::vector<DraftPart> parts;
  std::vector<LaidLine> lines;
  std::vector<std::string> names;  ///< of the parts, in their order
  std::map<std::string, PartId> by_name;
  std::vector<DraftNet> nets;
  std::vector<DraftAction> script;
  std::vector<Written> faults;
};

/// Both halves of "part.something".
struct Reference {
  std::string part, item;
};

/// Takes "part.something" apart. Errors: false, reported; `example` shows the form.
bool split_reference(const Written& written, const std::string& example, Reference& reference,
                     Mistakes& mistakes);

/// "lamp_1 (lamp)": a part and its type, for messages.
std::string titled(const DraftPart& part);

/// Looks a part up. Errors: nullptr if there is none (reported) or if its type is unknown (which
/// has been reported before).
const DraftPart* find_part(const Draft& draft, const std::string& name, const Written& written,
                           Mistakes& mistakes);

}  // namespace sixty
