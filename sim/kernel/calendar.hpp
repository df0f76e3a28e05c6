#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "sim/kernel/event.hpp"

namespace sixty {

/// Names one scheduled event, so that it can be cancelled; stays safe after the event has run.
struct EventHandle {
  std::uint32_t slot = UINT32_MAX;
  std::uint32_t generation = 0;
};

/// The future events in strict order of (time, phase, id). The order depends on nothing but those
/// three, never on addresses or on the order of cancelling. Copying a calendar copies the future.
class Calendar {
 public:
  /// Puts an event in and numbers it. Errors: none; an event in the past runs next.
  EventHandle schedule(Event event);
  /// Takes an event out; a handle whose event has run or been cancelled is ignored.
  void cancel(EventHandle handle);
  /// One event of its own, for whatever sees its next deed change with every event: numbered and
  /// ordered as any other, it costs no place in the heap. It takes the place of the one before.
  void set_standing(Event event);
  void clear_standing() { standing_.at = kNever; }
  bool empty() const { return heap_.empty() && standing_.at == kNever; }
  /// Order: only when not empty.
  const Event& next() const { return standing_first() ? standing_ : slots_[heap_[0]].event; }
  Event pop();
  /// Time of the next event, kNever when there is none.
  SimTime next_time() const { return empty() ? kNever : next().at; }
  std::size_t size() const { return heap_.size() + (standing_.at == kNever ? 0 : 1); }
  /// How many events have been scheduled so far.
  EventId last_id() const { return last_id_; }
  /// Deep hash of all that is scheduled, for comparing two runs.
  std::uint64_t state_hash() const;

 private:
  struct Slot {
    Event event;
    std::uint32_t generation = 0;
    std::uint32_t place = 0;
  };
  bool standing_first() const {
    if (standing_.at == kNever) return false;
    return heap_.empty() || before(standing_, slots_[heap_[0]].event);
  }
  static bool before(const Event& a, const Event& b);
  bool before(std::uint32_t a, std::uint32_t b) const {
    return before(slots_[a].event, slots_[b].event);
  }
  static Event none() {
    Event e;
    e.at = kNever;
    return e;
  }
  void put(std::size_t place, std::uint32_t slot);
  void sift_up(std::size_t place);
  void sift_down(std::size_t place);
  void remove_at(std::size_t place);

  std::vector<Slot> slots_;
  std::vector<std::uint32_t> free_;
  std::vector<std::uint32_t> heap_;  // four children to a parent: fewer cache lines than two
  Event standing_ = none();
  EventId last_id_ = kSceneStart;
};

}  // namespace sixty
