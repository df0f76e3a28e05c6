#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/base/diagnostic.hpp"

namespace sixty::gui {

class SheetWriter;

/// Whether the staff have taken opening into their own hands.
enum class OpenBy { kByFile, kOpen, kClosed };

/// What the staff have changed at the display itself. What is not there is as the exhibit's file
/// has it.
struct StaffBook {
  std::optional<int> volume;           ///< Units: percent. Range: 0 to 100
  std::vector<std::string> languages;  ///< codes of those offered, in order; empty: as in the file
  OpenBy opening = OpenBy::kByFile;
  bool out_of_order = false;  ///< the card is shown instead of the exhibit
  /// Texts in place of the file's, by the piece's name and the language's code.
  std::map<std::pair<std::string, std::string>, std::string> texts;

  static constexpr std::size_t kMostLanguages = 20, kMostTexts = 100;
  static constexpr std::size_t kMostText = 800, kMostName = 64;  ///< bytes

  bool operator==(const StaffBook&) const = default;
};

/// Errors: reported; what cannot be read is as without a file, all else as written. A file that is
/// not there is no mistake.
StaffBook read_staff_book(const std::string& path, Diagnostics& mistakes);

/// As it stands in the file.
std::string staff_book_text(const StaffBook& book);

/// Values of the environment; empty where a variable is not set.
struct StateEnvironment {
  std::string state_directory = {};    ///< STATE_DIRECTORY: one path, or several with ":"
  std::string xdg_state_home = {};     ///< XDG_STATE_HOME
  std::string home = {};               ///< HOME
  std::string logs_directory = {};     ///< LOGS_DIRECTORY, as the first
  std::string runtime_directory = {};  ///< RUNTIME_DIRECTORY, as the first
};

/// Those of this process.
StateEnvironment state_environment();

/// Where a display keeps what changes: the first of $STATE_DIRECTORY, $XDG_STATE_HOME/sixtybeats,
/// $HOME/.local/state/sixtybeats that is a whole path. Empty where there is none; then nothing is
/// kept.
std::string state_folder(const StateEnvironment& environment);
/// Where its log lies: $LOGS_DIRECTORY, or log in the state folder.
std::string log_folder(const StateEnvironment& environment);
/// Where its heartbeat lies: $RUNTIME_DIRECTORY, which is in memory, or the state folder.
std::string heartbeat_folder(const StateEnvironment& environment);

/// The book and its file. A damaged file is kept beside it with the ending ".damaged"; where
/// nothing can be written (a file system only to be read), changes hold until the program ends.
/// Order: one thread at a time; the writer lives longer.
class StaffDesk {
 public:
  /// `path`: of the file; empty if nothing is to be kept.
  StaffDesk(const std::string& path, SheetWriter& writer);

  const StaffBook& book() const { return book_; }
  /// Values out of their range are brought into it; texts that are empty, are no UTF-8, or are too
  /// many are left out, and those too long cut.
  void change(const StaffBook& book);

  /// For the staff page: what was damaged, and why changes are not kept; empty if all is well.
  std::string note() const;

 private:
  std::string path_;
  SheetWriter& writer_;
  StaffBook book_;
  std::string damaged_;
  bool stays_ = false;  // the file could neither be read nor set aside, and is left alone
};

}  // namespace sixty::gui
