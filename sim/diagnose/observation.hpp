#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/diagnose/beforehand.hpp"
#include "sim/diagnose/place.hpp"
#include "sim/diagnose/watch.hpp"
#include "sim/scene/mistakes.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty::diagnose {

/// One thing that was noticed, or looked for and not found.
struct Observation {
  enum class How : std::uint8_t {
    kThere,    ///< the sign is there
    kNot,      ///< it was looked for, and is not
    kAbout,    ///< it is there by about so much
    kAtLeast,  ///< by at least so much
    kAtMost,
    kReads,  ///< an instrument shows this
    kUnseen  ///< nobody looked: nothing follows, also not from its not being told
  };
  std::string place;               ///< as written
  std::string sign;                ///< by name
  std::vector<std::size_t> which;  ///< of the installation's signs; one for each part of the place
  How how = How::kThere;
  double amount = 0;     ///< Units: of the sign; of kReads the number itself
  bool all = true;       ///< of a place with several parts: all of them, or only some
  std::size_t span = 0;  ///< of the watch; 0: the whole
  /// What was known beforehand by whoever told this; none: nothing. Shared by all of one file, so
  /// that it goes wherever they go.
  std::shared_ptr<const Beforehand> known = nullptr;
  bool checked = false;  ///< looked for on purpose by who knows how, not told in passing

  bool is_looked_at() const { return how != How::kUnseen; }
  /// Whether the sign was found, by whatever amount.
  bool is_there() const { return is_looked_at() && how != How::kNot; }
};

/// That a sign is there. `which`: of the installation's signs, at all parts of the place.
Observation observation_at(std::string place, std::vector<std::size_t> which,
                           const std::vector<SignAt>& signs);

/// What was known beforehand by who told these: all of it, each thing once.
Beforehand known_with(const std::vector<Observation>& observations);

/// Said the wrong way round: what is there is not, and what is not is there.
void invert(Observation& one);

/// Whether anybody looked at any of it.
bool is_any_looked_at(const std::vector<Observation>& observations);

/// Those that say that something is not as usual. Range: indices, in order.
std::vector<std::size_t> complaints(const std::vector<Observation>& observations);

/// What people say when they tell it, in the spoken language: "clock_porch is slow by about 5 min".
std::string sentence(const Observation& observation, const std::vector<SignAt>& signs);

/// "Mon am": a half day of the watch, as files have it. Range: span >= 1.
std::string half_day_name(const Installation& installation, std::size_t span);
/// The same in the spoken language.
std::string spoken_half_day(const Installation& installation, std::size_t span);

/// Finds a sign at a place. Range: empty if no part of the place has one of that name.
std::vector<std::size_t> signs_at(const Place& place, const std::string& sign,
                                  const std::vector<SignAt>& signs);

/// Reads a file of observations (sim/diagnose/README.md). Errors: reported with their places;
/// those that are right are returned all the same.
std::vector<Observation> read_observations(const YamlNode& root, const std::string& file,
                                           const Installation& installation,
                                           const std::vector<SignAt>& signs, const WatchPlan& watch,
                                           Mistakes& mistakes);

/// Whether that is the text of such a file; of a file of signs.
bool is_observations(const YamlNode& root);
bool is_signs(const YamlNode& root);
/// Holds observations against their scene, which lies beside the file or one folder up, and signs
/// against their part type. Errors: reported with their places.
void check_observations(const YamlNode& root, const std::string& file, const Registry& registry,
                        Mistakes& mistakes);
void check_signs(const YamlNode& root, const std::string& file, const Registry& registry,
                 Mistakes& mistakes);

/// The text that is read back as the same observations. `scene`: its name.
std::string observations_text(const std::vector<Observation>& observations,
                              const std::vector<SignAt>& signs, const std::string& scene,
                              const Installation& installation);

}  // namespace sixty::diagnose
