#include "gui/strip/scribe.hpp"

#include <algorithm>
#include <optional>

#include "gui/strip/behind.hpp"
#include "gui/strip/pen.hpp"

namespace sixty::gui {
namespace {

SimTime length(SimTime width) { return width * static_cast<SimTime>(Tile::kColumns); }

}  // namespace

Scribe::Scribe(std::shared_ptr<const Installation> installation)
    : session_(std::move(installation)), thread_([this] { loop(); }) {}

Scribe::~Scribe() {
  {
    const std::lock_guard lock(mutex_);
    ends_ = true;
    ++wishes_;
  }
  changed_.notify_all();
  thread_.join();
}

void Scribe::set_lanes(std::vector<LaneOf> lanes) {
  const std::lock_guard lock(mutex_);
  if (lanes == lanes_) return;
  lanes_ = std::move(lanes);
  tiles_.clear();
  kept_ = {};
  ++orders_;
  ++wishes_;
  idle_ = false;
  changed_.notify_all();
}

void Scribe::set_log(std::shared_ptr<const std::vector<Action>> log) {
  const std::lock_guard lock(mutex_);
  if (log == log_) return;
  log_ = std::move(log);
  ++orders_;
  ++wishes_;
  idle_ = false;
  changed_.notify_all();
}

void Scribe::want(const Wanted& wanted) {
  const std::lock_guard lock(mutex_);
  if (wanted == wanted_) return;
  // While the present goes on nothing else is wanted.
  const bool goes_on = wanted.width == wanted_.width && wanted.from >= wanted_.from;
  if (!goes_on) ++wishes_;
  wanted_ = wanted;
  idle_ = false;
  changed_.notify_all();
}

std::shared_ptr<const Tile> Scribe::find(SimTime from, SimTime width) const {
  const std::lock_guard lock(mutex_);
  const auto it = tiles_.find({width, from});
  return it == tiles_.end() ? nullptr : it->second;
}

std::vector<std::shared_ptr<const Tile>> Scribe::written(const Wanted& wanted,
                                                         std::size_t lanes) const {
  std::vector<std::shared_ptr<const Tile>> tiles;
  const SimTime each = length(wanted.width);
  const SimTime last = std::min(wanted.to, wanted.reach);
  for (SimTime from = wanted.from / each * each; from <= last; from += each) {
    auto tile = find(from, wanted.width);
    if (tile != nullptr && tile->lanes == lanes) tiles.push_back(std::move(tile));
  }
  return tiles;
}

void Scribe::wait() const {
  std::unique_lock lock(mutex_);
  changed_.wait(lock, [this] { return idle_; });
}

bool Scribe::is_busy() const {
  const std::lock_guard lock(mutex_);
  return !idle_;
}

void Scribe::loop() {
  stay_behind();
  std::unique_lock lock(mutex_);
  while (!ends_) {
    if (obeyed_ != orders_) {
      obey(lock);
      continue;
    }
    const std::optional<Key> work = find_work();
    if (!work) {
      idle_ = true;
      changed_.notify_all();
      changed_.wait(lock);
      continue;
    }
    const auto it = tiles_.find(*work);
    const std::shared_ptr<const Tile> before = it == tiles_.end() ? nullptr : it->second;
    const SimTime reach = wanted_.reach;
    lock.unlock();
    std::shared_ptr<const Tile> tile;
    try {
      tile = go_on(*work, before, reach);
    } catch (const RunFailure&) {
      tile = nullptr;  // the run that it follows stands there too, and says why
    }
    lock.lock();
    if (tile == nullptr) fails_at_ = work->second;
    if (tile != nullptr && obeyed_ == orders_) keep(*work, std::move(tile));
  }
}

/// Takes new lanes and another log, and forgets what is no longer so.
void Scribe::obey(std::unique_lock<std::mutex>& lock) {
  const std::uint64_t orders = orders_;
  writing_ = lanes_;
  const auto log = log_;
  lock.unlock();
  const SimTime from = log == nullptr ? kNever : session_.replace_log(*log);
  lock.lock();
  std::vector<Key> changed;
  for (const auto& [key, tile] : tiles_) {
    const auto& [width, begin] = key;
    if (begin + length(width) >= from) changed.push_back(key);
  }
  for (const Key& key : changed) forget(key);
  fails_at_ = kNever;
  obeyed_ = orders;
}

/// The tile in which the present is comes first, then all from left to right.
std::optional<Scribe::Key> Scribe::find_work() const {
  if (lanes_.empty()) return std::nullopt;
  const SimTime width = wanted_.width;
  const auto is_work = [&](SimTime from) {
    const auto it = tiles_.find({width, from});
    const std::size_t filled = it == tiles_.end() ? 0 : it->second->filled();
    const SimTime next_end = from + width * static_cast<SimTime>(filled + 1);
    return filled < Tile::kColumns && next_end <= std::min(wanted_.reach, fails_at_);
  };
  const auto tile_at = [&](SimTime t) { return t / length(width) * length(width); };
  const SimTime last = std::min(wanted_.to, wanted_.reach);
  if (last < wanted_.from) return std::nullopt;
  if (is_work(tile_at(last))) return Key{width, tile_at(last)};
  for (SimTime from = tile_at(wanted_.from); from <= last; from += length(width)) {
    if (is_work(from)) return Key{width, from};
  }
  return std::nullopt;
}

/// Stops early when something else is wanted: what is written is kept.
std::shared_ptr<const Tile> Scribe::go_on(const Key& key, const std::shared_ptr<const Tile>& before,
                                          SimTime reach) {
  const std::uint64_t wishes = wishes_;
  auto tile = before == nullptr ? std::make_shared<Tile>() : std::make_shared<Tile>(*before);
  tile->width = key.first;
  tile->from = key.second;
  tile->lanes = writing_.size();
  // All of one size, so that a new one fits where an old one was.
  tile->columns.reserve(Tile::kColumns * tile->lanes);
  SimTime at = tile->from + tile->width * static_cast<SimTime>(tile->filled());
  if (session_.now() != at) session_.seek(at);
  Pen pen(session_, writing_);
  while (tile->filled() < Tile::kColumns && at + tile->width <= reach) {
    at += tile->width;
    pen.write(at, tile->columns, tile->edges);
    if (wishes != wishes_) break;
  }
  return tile;
}

void Scribe::keep(const Key& key, std::shared_ptr<const Tile> tile) {
  forget(key);
  kept_.columns += tile->columns.size();
  kept_.edges += tile->edges.size();
  tiles_.emplace(key, std::move(tile));
  while (kept_.columns > kMostColumns || kept_.edges > kMostEdges) {
    const std::optional<Key> far = farthest();
    if (!far) break;
    forget(*far);
  }
}

void Scribe::forget(const Key& key) {
  const auto it = tiles_.find(key);
  if (it == tiles_.end()) return;
  kept_.columns -= it->second->columns.size();
  kept_.edges -= it->second->edges.size();
  tiles_.erase(it);
}

/// The tile that is the least likely to be shown next: one of other columns, or else the one that
/// lies farthest from what is shown. Nothing, where all is shown.
std::optional<Scribe::Key> Scribe::farthest() const {
  std::optional<Key> far;
  SimTime most = 0;
  for (const auto& [key, tile] : tiles_) {
    const auto& [width, begin] = key;
    if (width != wanted_.width) return key;
    const SimTime off = std::max(wanted_.from - begin - length(width), begin - wanted_.to);
    if (off <= most) continue;
    most = off;
    far = key;
  }
  return far;
}

Scribe::Kept Scribe::kept() const {
  const std::lock_guard lock(mutex_);
  return kept_;
}

}  // namespace sixty::gui
