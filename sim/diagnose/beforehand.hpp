#pragma once

#include <memory>
#include <string>
#include <vector>

#include "sim/diagnose/circumstance.hpp"
#include "sim/diagnose/place.hpp"
#include "sim/diagnose/suspect.hpp"
#include "sim/scene/tree_reader.hpp"

namespace sixty::diagnose {

/// What is known of an installation before anything is looked at, all as written.
struct Beforehand {
  /// Something that was done, or the weather.
  struct Happened {
    std::string what, place, ago, by;  ///< all but the first may be empty
    Circumstance circumstance;
    double ago_days = 0;
    std::vector<PartId> parts;  ///< where it was done, in order; of an empty place none

    bool operator==(const Happened& other) const {
      return what == other.what && place == other.place && ago == other.ago && by == other.by;
    }
  };
  std::string built, age, serviced;  ///< may be empty
  ByCause by_age{};                  ///< what built or age, and serviced, speak for
  std::vector<Happened> done, weather;

  /// Nothing is known.
  bool is_empty() const {
    return built.empty() && age.empty() && serviced.empty() && done.empty() && weather.empty();
  }
};

/// Reads what stands under `known:`. Errors: reported with their places; what is right is kept.
Beforehand read_beforehand(const YamlNode& node, const Installation& installation,
                           const std::vector<Place>& places, TreeReader& reader);
/// The text that is read back as the same; empty if nothing is known.
std::string beforehand_text(const Beforehand& known);
/// "built 1931", "new cells at battery, 2 weeks ago", in the spoken language: each for itself.
std::vector<std::string> beforehand_words(const Beforehand& known);

/// The same in one list, and in one sentence; empty if nothing is known.
std::string beforehand_list(const Beforehand& known);
std::string beforehand_sentence(const Beforehand& known);

/// How many times as likely each suspect becomes: the mean over the causes of its fault of what all
/// that is known makes of them. Range: 0.05 to 20; 1 where nothing speaks of it.
std::vector<double> weights_of(const Beforehand& known, const std::vector<Suspect>& suspects,
                               const Installation& installation);

}  // namespace sixty::diagnose
