#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/diagnostic.hpp"
#include "sim/scene/installation.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty {

/// What is said in a step: words, and readings that stand between them as they are at the moment.
struct Saying {
  struct Piece {
    std::string words;
    std::optional<ReadingOf> reading;   ///< shown behind the words
    std::optional<std::size_t> number;  ///< in its place: one of those that have names of their own
    int decimals = -1;                  ///< of the number alone; -1: the quantity with its unit
    bool turned = false;                ///< told with the other sign
  };
  std::vector<Piece> pieces;
  bool empty() const { return pieces.empty(); }
};

/// The same in each language that it is written in. Range: English is one of them.
using Sayings = std::map<std::string, Saying>;

/// What of the installation is to be looked at.
enum class Scope : std::uint8_t { kBuilding, kCase, kPart };

/// From where an installation is looked at, what is lit, what is said of it, and how fast it goes.
struct Stop {
  Sayings head, text;
  double speed = 1;  ///< seconds of the scene to one of the wall
  bool stretch = false;
  Scope scope = Scope::kCase;
  std::optional<PartId> part;  ///< that is looked at
  std::vector<PartId> light;   ///< empty: nothing is dimmed
};

/// One stop of a tour, and when it is.
struct TourStep : Stop {
  SimTime at = 0;
  double lasts_s = 10;  ///< of the wall
};

/// A walk through an installation. It only says when to look where: all that is seen is the run's.
struct Tour {
  std::vector<TourStep> steps;
  std::vector<Action> log;          ///< the scene's own actions and the tour's, in order of time
  std::vector<ReadingOf> readings;  ///< of all that is said
  double lasts_s() const;
};

/// Whether that is the text of one.
bool is_tour(const YamlNode& root);
/// Holds that text against its scene, which lies beside the file or one folder above. Errors:
/// reported with their places.
void check_tour(const YamlNode& root, const std::string& path, const Registry& registry,
                Diagnostics& diagnostics);

/// Reads a tour of that installation. Errors: reported with their places; nothing is returned if
/// there is one.
std::shared_ptr<const Tour> read_tour(const std::string& path, const Installation& installation,
                                      const Registry& registry, Diagnostics& diagnostics);

}  // namespace sixty
