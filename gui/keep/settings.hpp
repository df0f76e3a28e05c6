#pragma once

#include <string>
#include <vector>

#include "sim/base/diagnostic.hpp"

namespace sixty::gui {

/// What the bench keeps of its own from one time to the next.
struct Settings {
  std::string theme = "dark";       ///< dark or light
  double scale = 0;                 ///< of all that is drawn, 0.75 to 4; 0: as the display asks
  double card_share = 0.24;         ///< of the window's width, for the card
  double strip_share = 0.25;        ///< of its height, for the strip of time
  bool greets = true;               ///< the bench begins with what a newcomer can do
  int width = 1280, height = 800;   ///< of the window. Units: pixels
  std::string language;             ///< code of what is spoken; empty: as the system asks
  bool captions = false;            ///< what sounds is also written
  bool calm = false;                ///< views change at once instead of gliding
  std::string learner;              ///< whose lessons are kept; empty: nobody's
  std::vector<std::string> recent;  ///< files opened, the last one first; whole paths

  static constexpr double kLeastScale = 0.75, kMostScale = 4;
  static constexpr double kLeastCard = 0.15, kMostCard = 0.5;
  static constexpr double kLeastStrip = 0.15, kMostStrip = 0.6;
  static constexpr int kLeastSide = 320, kMostSide = 8192;

  bool operator==(const Settings&) const = default;
};

/// Most files that are remembered.
constexpr std::size_t kMostRecent = 12;

/// Where the settings are kept: sixtybeats/settings.yaml in $XDG_CONFIG_HOME or, without it, in
/// .config of the home folder. Empty where there is neither.
std::string settings_file();

/// Errors: reported; what cannot be read is as it is without a file, all else as written. A file
/// that is not there is no mistake.
Settings read_settings(const std::string& path, Diagnostics& mistakes);

/// Writes them whole or not at all, and makes the folder. A file there that cannot be read is kept
/// beside it, with the ending ".damaged".
/// Errors: false, the reason in `error`; nothing is lost then.
bool write_settings(const std::string& path, const Settings& settings, std::string& error);

/// Puts a file first in the list of those opened.
void remember(const std::string& path, Settings& settings);

}  // namespace sixty::gui
