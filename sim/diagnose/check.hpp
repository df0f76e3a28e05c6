#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim/part/registry.hpp"
#include "sim/scene/mistakes.hpp"

namespace sixty::diagnose {

/// Something that a technician does to learn more.
struct Check {
  /// How much of an installation one check shows: one part, all of a line or zone, all there is, or
  /// all that the current through one part passes.
  enum class Covers : std::uint8_t { kOne, kGroup, kAll, kCircuit };
  std::string id;    ///< "T11"
  std::string what;  ///< in the imperative
  double minutes = 0;
  std::string needs;   ///< tools and helpers, may be empty
  std::string hazard;  ///< what can hurt somebody or the clock; empty: nothing
  std::string care;    ///< caution that is shown with it
  Covers covers = Covers::kOne;
  std::vector<std::string> shows;  ///< what other checks would show, by their ids
  bool asks = false;               ///< those who use the building, for what anybody sees or hears
  double risk = 0;  ///< how dangerous, against an hour of work. Range: 0 to 1 (judgement)
};

/// The checks that are known, in the order of their file.
class CheckBook {
 public:
  /// Errors: reported, at their place in the file.
  CheckBook(const Registry& registry, Mistakes& mistakes);
  const std::vector<Check>& all() const { return all_; }
  /// nullptr if there is none of that number.
  const Check* find(const std::string& id) const;

 private:
  std::vector<Check> all_;
};

/// What a check costs: making ready, its minutes, and its risk as minutes. Units: min.
double cost_min(const Check& check);

}  // namespace sixty::diagnose
