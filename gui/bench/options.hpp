#pragma once

#include <limits>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "gui/tour/guide.hpp"
#include "gui/views/view.hpp"
#include "sim/base/diagnostic.hpp"
#include "sim/scene/loader.hpp"
#include "sim/tour/tour.hpp"

namespace sixty::gui {

/// Which pictures a film is made of. No folder: none is asked for.
struct FilmOrder {
  std::string folder;
  std::string from, to;  ///< TIMEs of the scene
  double speed = 1;      ///< seconds of the scene to one of the wall
  bool stretch = false, captions = false;
};

/// How a fault hunt gets to know the installation.
struct HuntOptions {
  std::string watch_for;     ///< DURATION; empty: as below
  std::string cache;         ///< folder for what can be made again; empty: the user's own
  SimTime watch = 3 * kDay;  ///< of each run
  std::size_t runs = 0, sound = 8;
};

/// What the command line asks for.
struct Options {
  std::string scene;
  SceneChanges changes;
  std::string at;             ///< TIME; empty: the start
  std::string view = "case";  ///< building, case or part:NAME
  std::string size;           ///< WIDTHxHEIGHT; empty: as below
  unsigned width = 1280, height = 800;
  std::string language;    ///< code; empty: as in the settings, or as the system asks
  std::string theme;       ///< dark or light; empty: as it was the last time
  double scale = 0;        ///< of all that is drawn; 0: as in the settings, or as the display asks
  std::string screenshot;  ///< file; empty: none
  std::string fonts;       ///< folder
  int measure_frames = 0;
  std::string tour;  ///< file, or its name among those beside the scene; empty: none
  Guide::Way way = Guide::Way::kOnce;
  int step = 1;            ///< of the tour or lesson, to begin with
  std::string lesson;      ///< file, or the beginning of its name among those beside the scene
  std::string exhibit;     ///< file; empty: none
  std::string piece;       ///< of it, for a picture
  bool makes_pin = false;  ///< asks for a PIN, and prints what a file may keep of it
  std::string clock;       ///< what clocks on the wall show when it begins; empty: as they do
  FilmOrder film;
  HuntOptions hunt;
  /// The command line says when or with what to begin.
  bool begins_somewhere() const {
    return !at.empty() || !tour.empty() || !lesson.empty() || view != "case";
  }
  bool fills_screen() const { return !tour.empty() && size.empty() && screenshot.empty(); }
};

/// Errors: reported. Returns the program's exit code where it is to end at once: what was written
/// is no command line, or help was asked for.
std::optional<int> read_options(int argc, char** argv, Options& options, Diagnostics& mistakes);

/// An installation with where it is looked at first.
struct Opening {
  std::shared_ptr<const Installation> installation;
  std::shared_ptr<const Installation> sound;  ///< the same without any fault
  SimTime at = 0;
  std::vector<Action> actions;   ///< besides those of the scene
  std::string scene;             ///< its file, whatever was opened
  std::vector<std::string> set;  ///< values of it that are others
  View view = View::kCase;
  std::optional<PartId> part;  ///< selected
  std::shared_ptr<const Tour> tour;
  SimTime film_from = 0, film_to = 0;
  /// What the first picture waits for the run to come to `at`; it is of where the run is by then,
  /// which goes on meanwhile. Units: s of the wall.
  double patience_s = std::numeric_limits<double>::infinity();
};
/// A scene with changes as on the command line, or a moment that was kept. Errors: without an
/// installation, reported.
Opening open_path(const std::string& path, const SceneChanges& changes, const Registry& registry,
                  Diagnostics& mistakes);

/// Errors: reported; of an installation that cannot be loaded alone.
Opening open_scene(const Options& options, const Registry& registry, Diagnostics& mistakes);

}  // namespace sixty::gui
