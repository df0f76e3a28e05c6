#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/part/registry.hpp"
#include "sim/scene/installation.hpp"
#include "sim/scene/mistakes.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty::diagnose {

/// What a technician does at a part of a kind when he comes to look, so that things happen at which
/// he can look: winds by hand, presses a key. Data beside the part.
struct VisitAct {
  const Registry::Entry* kind = nullptr;
  std::size_t command = 0;
  double value = 0;  ///< Units: SI
  SimTime at = 0;    ///< from when he comes
  int times = 1;
  SimTime apart = kSecond;              ///< of the times, and of several parts of the kind
  std::optional<std::size_t> if_still;  ///< reading that must be the same as a minute ago
  std::optional<std::size_t> where;     ///< parameter that must have a value, a choice
  double is = 0;
};

/// One thing that hands do at a visit.
struct Hand {
  Action action;                        ///< its time counted from when the visit begins
  std::optional<std::size_t> if_still;  ///< reading of the part that must not have changed
};

/// A visit to an installation, the same whatever is the matter.
struct Visit {
  std::vector<Hand> hands;  ///< in order of time
  SimTime lasts = 0;
};

/// Reads what is done at one part type. Errors: reported.
std::vector<VisitAct> read_visit(const YamlNode& list, const std::string& file,
                                 const Registry::Entry& kind, Mistakes& mistakes);

/// What it comes to with the parts of an installation.
Visit visit_to(const Installation& installation, const std::vector<VisitAct>& acts);

}  // namespace sixty::diagnose
