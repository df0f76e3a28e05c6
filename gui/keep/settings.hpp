#pragma once

#include <string>
#include <vector>

#include "sim/base/diagnostic.hpp"

namespace sixty::gui {

/// Of a window. Units: pixels.
constexpr int kLeastSide = 320, kMostSide = 8192;

/// What the bench keeps of its own from one time to the next.
struct Settings {
  std::string theme = "dark";       ///< dark or light
  double scale = 1;                 ///< of letters and panels. Range: 0.75 to 3
  double card_share = 0.24;         ///< of the window's width, for the card. Range: 0.15 to 0.5
  double strip_share = 0.24;        ///< of its height, for the strip of time. Range: 0.05 to 0.6
  int width = 1280, height = 800;   ///< of the window. Range: kLeastSide to kMostSide
  std::vector<std::string> recent;  ///< files opened, the last one first; whole paths

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
