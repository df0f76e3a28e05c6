#pragma once

#include <cstddef>
#include <map>
#include <mutex>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "gui/sound/ear.hpp"

namespace sixty::gui {

/// What is heard, in writing: one line for each sound, which stays while it is heard again and for
/// a moment after. May be used from several threads.
class Captions {
 public:
  explicit Captions(const Installation& installation);

  void take(const Hearing& hearing);
  /// The run has jumped elsewhere.
  void clear();
  /// The lines to be shown now, the latest sound last. Units: s of the wall; range: never less than
  /// the time before.
  std::vector<std::string> lines(double now_s);

  static constexpr double kStays_s = 2.5;       ///< long enough to be read
  static constexpr std::size_t kMostLines = 4;  ///< more cannot be read

 private:
  using Source = std::pair<PartId, std::size_t>;  // a part's voice
  struct Line {
    double since_s = 0, until_s = 0;
  };

  const Installation& installation_;
  std::mutex mutex_;
  std::set<Source> fresh_;  // heard since the lines were last asked for
  std::map<Source, Line> shown_;
};

}  // namespace sixty::gui
