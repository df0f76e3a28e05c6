#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "sim/kernel/event.hpp"

namespace sixty {

/// What orders an event, and where the rest of it lies.
struct EventKey {
  SimTime at = 0;
  std::uint64_t rank = 0;  ///< phase, then id, in one word: what orders the events of one instant
  std::uint32_t slot = 0;

  EventKey() = default;
  EventKey(SimTime t, std::uint64_t r, std::uint32_t s) : at(t), rank(r), slot(s) {}
  /// Range: ids below 2^56 (sim/base/ids.hpp keeps them below 2^42).
  EventKey(const Event& event, std::uint32_t s)
      : EventKey(event.at, static_cast<std::uint64_t>(event.phase) << 56 | event.id, s) {}
  bool before(const EventKey& other) const {
    return at != other.at ? at < other.at : rank < other.rank;
  }
};

/// Keys, the first of them always at hand. Most events are put in nearly in the order in which they
/// run, so the queue keeps a sorted run to which a key is added near either end by moving a few;
/// what the run cannot take so goes to a heap, once. Where a key lies never shows: the order is
/// strict.
class KeyQueue {
 public:
  bool empty() const { return first_.rank == kNone; }
  std::size_t size() const { return run_.size() - head_ + heap_.size(); }
  /// Range: when empty, a key at kNever that is after every other.
  const EventKey& first() const { return first_; }
  /// Order: only when not empty.
  void drop_first() {
    if (heap_first()) {
      drop_heap_first();
    } else {
      ++head_;
    }
    if (heap_first()) {
      first_ = heap_.front();
    } else {
      first_ = head_ == run_.size() ? none() : run_[head_];
    }
  }
  void put(const EventKey& key) {
    if (key.before(first_)) first_ = {key.at, key.rank, key.slot};
    if (head_ == run_.size()) {
      run_.clear();
      head_ = 0;
    } else if (key.before(run_.back())) {
      put_within(key);
      return;
    }
    if (head_ >= kMostGone) close_up();
    run_.emplace_back(key.at, key.rank, key.slot);
  }
  /// Places taken, those of keys that have gone included: what a copy costs.
  std::size_t places() const { return run_.size() + heap_.size(); }
  /// Every key, in no particular order.
  std::vector<EventKey> keys() const;

 private:
  static constexpr std::size_t kReach = 4;      // keys that are moved to let one in
  static constexpr std::size_t kMostGone = 64;  // places before the head that are left to lie

  static constexpr std::uint64_t kNone = UINT64_MAX;

  static EventKey none() { return {kNever, kNone, 0}; }
  bool heap_first() const {
    return !heap_.empty() && (head_ == run_.size() || heap_.front().before(run_[head_]));
  }
  void put_within(const EventKey& key);
  bool put_near_front(const EventKey& key);
  void spill_after(const EventKey& key);
  void close_up();
  void put_in_heap(const EventKey& key);
  void drop_heap_first();

  EventKey first_ = none();    // a copy, for it is asked for much more often than it changes
  std::vector<EventKey> run_;  // sorted from head_ on; before it, what is gone
  std::size_t head_ = 0;
  std::vector<EventKey> heap_;  // four children to a parent: fewer cache lines than two
};

}  // namespace sixty
