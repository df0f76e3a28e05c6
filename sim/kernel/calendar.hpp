#pragma once

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <vector>

#include "sim/kernel/event.hpp"
#include "sim/kernel/key_queue.hpp"

namespace sixty {

/// Names one scheduled event, so that it can be cancelled; stays safe after the event has run. One
/// that is all zeros names none, like a fresh one.
struct EventHandle {
  std::uint32_t slot = UINT32_MAX;
  std::uint32_t generation = 0;
};

/// The future events in strict order of (time, phase, id). The order depends on nothing but those
/// three, never on addresses or on the order of cancelling. Copying a calendar copies the future.
class Calendar {
 public:
  /// Puts an event in and numbers it. Errors: none; an event in the past runs next.
  EventHandle schedule(const Event& event) {
    const std::uint32_t slot = free_slot();
    Slot& s = slots_[slot];
    s.event = numbered(event, ++last_id_);
    queue_.put({s.event, slot});
    return {slot, s.generation};
  }
  /// Takes an event out; a handle whose event has run or been cancelled is ignored.
  void cancel(EventHandle handle);
  /// One event of its own, for whatever sees its next deed change with every event: numbered and
  /// ordered as any other, it costs no place in the queue. Whose it is, and its phase, stay.
  void set_standing(std::uint32_t target, Phase phase) {
    standing_.target = target;
    standing_.phase = phase;
  }
  /// The standing event takes the place of the one before. Order: after set_standing().
  void move_standing(SimTime at, EventId cause) {
    standing_.at = at;
    standing_.cause = cause;
    standing_.id = ++last_id_;
  }
  void clear_standing() { standing_.at = kNever; }
  bool standing_is_next() const {
    return standing_.at != kNever && EventKey(standing_, 0).before(queue_.first());
  }
  bool empty() const { return queue_.empty() && standing_.at == kNever; }
  /// Order: only when not empty.
  const Event& next() const {
    return standing_is_next() ? standing_ : slots_[queue_.first().slot].event;
  }
  Event pop() {
    if (standing_is_next()) {
      const Event event = standing_;
      clear_standing();
      return event;
    }
    const std::uint32_t slot = queue_.first().slot;
    queue_.drop_first();
    release(slot);
    if (cancelled_ != 0) drop_cancelled();
    const Event& e = slots_[slot].event;
    return numbered(e, e.id);
  }
  /// Time of the next event, kNever when there is none.
  SimTime next_time() const { return std::min(standing_.at, queue_.first().at); }
  std::size_t size() const { return queue_.size() - cancelled_ + (standing_.at == kNever ? 0 : 1); }
  /// How many events have been scheduled so far.
  EventId last_id() const { return last_id_; }
  /// Deep hash of all that is scheduled, for comparing two runs.
  std::uint64_t state_hash() const;

 private:
  struct Slot {
    Event event;
    std::uint32_t generation = 1;  ///< never 0: a handle of zeros, as fresh state has it, is none
  };
  static Event none() {
    Event e;
    e.at = kNever;
    return e;
  }
  std::uint32_t free_slot() {
    if (free_.empty()) {
      slots_.push_back({});
      return static_cast<std::uint32_t>(slots_.size() - 1);
    }
    const std::uint32_t slot = free_.back();
    free_.pop_back();
    return slot;
  }
  void release(std::uint32_t slot) {
    ++slots_[slot].generation;
    free_.push_back(slot);
  }
  bool cancelled(const EventKey& key) const {
    return EventKey(slots_[key.slot].event, key.slot).rank != key.rank;
  }
  void drop_cancelled();
  void sweep();

  std::vector<Slot> slots_;
  std::vector<std::uint32_t> free_;
  KeyQueue queue_;             // its first key is never that of a cancelled event
  std::size_t cancelled_ = 0;  // keys in the queue whose events were cancelled
  Event standing_ = none();
  EventId last_id_ = kSceneStart;
};

}  // namespace sixty
