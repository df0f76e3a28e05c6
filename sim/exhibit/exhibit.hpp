#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/base/zone.hpp"
#include "sim/exhibit/hours.hpp"
#include "sim/lesson/condition.hpp"
#include "sim/lesson/lesson.hpp"
#include "sim/tour/tour.hpp"

namespace sixty::exhibit {

/// A short piece of a run that is put on, and what is said of it.
struct Take : Stop {
  std::string name;                       ///< told apart by it in counts
  int line = 0;                           ///< in the file
  bool live = false;                      ///< the clocks as they stand now; no piece of its own
  SimTime at = 0, to = 0;                 ///< from where to where it goes
  double least_s = 8;                     ///< of the wall, that it stays
  std::vector<Action> deeds;              ///< of its own
  std::vector<Action> log;                ///< the scene's own actions and its own, in order of time
  std::vector<lesson::NamedFact> facts;   ///< numbers that its words hold
  std::vector<lesson::Condition> proves;  ///< that is so between `at` and `to`, or it is wrong
  Sayings button;                         ///< what a visitor presses to begin it
  Sayings answer;                         ///< what happened and why: said once it has come to `to`
  bool right = false;                     ///< of a guess
};

/// One case of a thing to do: what is put on first, and what can be pressed then.
struct Case {
  Take first;
  std::vector<Take> hands;
};

/// Something large that visitors can do. A hunt has several cases, and one guess of each is right.
struct Thing {
  std::string name;
  Sayings title;
  std::optional<PartId> icon;  ///< the part whose figure stands on its button
  std::vector<Case> cases;
  bool is_hunt() const;
};

/// What the exhibit knows of its screen. Units: m; the width is that of the screen as it lies, its
/// height where it stands on end; text is sized for a reader at `distance`.
struct Screen {
  double width_m = 0.477, distance_m = 0.6;
  bool low = false;  ///< all that is touched is in the lower half
  /// Least height of a small letter that a reader at 600 mm wants. Source: goals for the exhibit,
  /// common practice, no source; larger in proportion farther away.
  static constexpr double kLetter_m = 0.005, kAt_m = 0.6;
  /// Least side of what is touched.
  static constexpr double kTarget_m = 0.015;
};

/// Keys that are held at once.
struct Chord {
  bool control = false, alt = false, shift = false;
  std::string key;  ///< "A" to "Z", "F1" to "F12"
};
/// "Ctrl+Alt+F9". Errors: nothing.
std::optional<Chord> read_chord(const std::string& text);

/// How staff get in.
struct StaffDoor {
  enum class Corner : std::uint8_t { kUpperLeft, kUpperRight, kLowerLeft, kLowerRight };
  Corner corner = Corner::kUpperLeft;
  double hold_s = 5;
  std::string pin;            ///< hashed; empty: there is none, and keys alone lead there
  std::optional<Chord> keys;  ///< none: the corner alone
};

/// A display that runs by itself: a story for nobody, things for whoever comes. Constant.
struct Exhibit {
  std::string file, scene;
  std::vector<std::string> set;  ///< values of the scene that are others
  Sayings title, institution;
  std::string zone;                    ///< IANA name; empty: the system's
  std::vector<std::string> languages;  ///< the first is spoken when nobody is there
  Screen screen;
  bool light = false;  ///< the theme
  std::string accent;  ///< colour of what can be touched, "#1f6fb2"; or empty
  double volume = 0.6, most_volume = 0.8;
  double ask_after_s = 50, answer_within_s = 18;
  Hours open, quiet;
  StaffDoor staff;
  std::vector<Take> story;
  std::vector<Thing> things;
  std::optional<PartId> dial;       ///< its figure stands at the head, at the right time
  std::vector<ReadingOf> readings;  ///< of all that is said while it runs
};

/// Whether that is the text of one.
bool is_exhibit(const YamlNode& root);
/// Holds that text against its scene, which lies beside the file or one folder above.
/// Errors: reported with their places.
void check_exhibit(const YamlNode& root, const std::string& path, const Registry& registry,
                   Diagnostics& diagnostics);

/// An exhibit with the installation that it is of.
struct Opened {
  std::shared_ptr<const Installation> installation;
  std::shared_ptr<const Exhibit> exhibit;
};
/// Errors: reported with their places, and nothing is in it.
Opened open_exhibit(const std::string& path, const Registry& registry, Diagnostics& diagnostics);

/// Where it is; UTC where the machine knows no zones.
TimeZone zone_of(const Exhibit& exhibit);

/// All takes: of the story, then of the things.
std::vector<const Take*> takes_of(const Exhibit& exhibit);

}  // namespace sixty::exhibit
