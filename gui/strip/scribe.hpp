#pragma once

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <thread>
#include <vector>

#include "gui/strip/lanes.hpp"
#include "gui/strip/span.hpp"
#include "sim/run/session.hpp"

namespace sixty::gui {

/// What a lane was within one column of time.
struct Column {
  float first = 0, last = 0, least = 0, most = 0;
};

/// An instant at which a lane of states becomes another.
struct Edge {
  SimTime at = 0;
  std::uint32_t lane = 0;
  float value = 0;  ///< from then on
};

/// Some columns of all lanes, from left to right as far as they are known.
struct Tile {
  static constexpr std::size_t kColumns = 64;
  SimTime from = 0;
  SimTime width = 1;  ///< of a column, ns
  std::size_t lanes = 0;
  std::vector<Column> columns;  ///< lane by lane within each column
  std::vector<Edge> edges;      ///< of bars and strokes, within these columns, in order of time
  std::size_t filled() const { return lanes == 0 ? 0 : columns.size() / lanes; }
  const Column& at(std::size_t column, std::size_t lane) const {
    return columns[column * lanes + lane];
  }
};

/// Writes down how the lanes went, by running a session of its own through the stretch of time that
/// somebody wants to see, on a thread of its own. What it has written stays until an action changes
/// it, or until there is too much of it.
class Scribe {
 public:
  explicit Scribe(std::shared_ptr<const Installation> installation);
  ~Scribe();
  Scribe(const Scribe&) = delete;
  Scribe& operator=(const Scribe&) = delete;

  void set_lanes(std::vector<LaneOf> lanes);
  /// The actions of the run that it writes down. What is no longer so is forgotten.
  void set_log(std::shared_ptr<const std::vector<Action>> log);
  /// A stretch of time, in columns of that width, known up to `reach`. Range: width > 0.
  struct Wanted {
    SimTime from = 0, to = 0, width = 1, reach = 0;
    bool operator==(const Wanted&) const = default;
  };
  /// Takes the place of what was wanted before.
  void want(const Wanted& wanted);
  /// What is wanted of the time that is shown.
  static Wanted wanted_of(const Span& span, SimTime reach) {
    return {std::max<SimTime>(span.from(), 0), span.to(), span.column(), reach};
  }
  /// What is written of it by now, of so many lanes, from left to right.
  std::vector<std::shared_ptr<const Tile>> written(const Wanted& wanted, std::size_t lanes) const;
  /// What is written by now; nullptr: nothing. `from`: a multiple of a tile's length.
  std::shared_ptr<const Tile> find(SimTime from, SimTime width) const;
  /// Waits until all that is wanted is written (for pictures and tests).
  void wait() const;
  /// Something that is wanted is not written yet.
  bool is_busy() const;
  /// How much is kept, of all lanes. Beyond the most, what lies farthest from what is wanted is
  /// forgotten, and written anew where it is wanted again; what is wanted itself stays.
  struct Kept {
    std::size_t columns = 0, edges = 0;
  };
  static constexpr std::size_t kMostColumns = 500'000, kMostEdges = 250'000;  // 12 MB
  Kept kept() const;

 private:
  using Key = std::pair<SimTime, SimTime>;  ///< width, from
  void loop();
  void obey(std::unique_lock<std::mutex>& lock);
  std::optional<Key> find_work() const;
  std::shared_ptr<const Tile> go_on(const Key& key, const std::shared_ptr<const Tile>& before,
                                    SimTime reach);
  void keep(const Key& key, std::shared_ptr<const Tile> tile);
  void forget(const Key& key);
  std::optional<Key> farthest() const;

  mutable std::mutex mutex_;
  mutable std::condition_variable changed_;
  bool ends_ = false, idle_ = false;
  std::vector<LaneOf> lanes_;
  std::shared_ptr<const std::vector<Action>> log_;
  Wanted wanted_;
  std::uint64_t orders_ = 0;               ///< of lanes and log, so far
  std::atomic<std::uint64_t> wishes_ = 0;  ///< for which what is being written is left
  std::map<Key, std::shared_ptr<const Tile>> tiles_;
  Kept kept_;  ///< in all of them
  // The thread's own.
  Session session_;
  std::vector<LaneOf> writing_;
  std::uint64_t obeyed_ = 0;
  SimTime fails_at_ = kNever;  ///< the run has failed in a tile that begins here
  std::thread thread_;         // last: it uses all of the others
};

}  // namespace sixty::gui
