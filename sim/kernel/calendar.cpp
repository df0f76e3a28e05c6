#include "sim/kernel/calendar.hpp"

#include <algorithm>

#include "sim/base/hash.hpp"

namespace sixty {

EventHandle Calendar::schedule(Event event) {
  event.id = ++last_id_;
  std::uint32_t slot = 0;
  if (free_.empty()) {
    slot = static_cast<std::uint32_t>(slots_.size());
    slots_.push_back({});
  } else {
    slot = free_.back();
    free_.pop_back();
  }
  slots_[slot].event = event;
  heap_.push_back(slot);
  sift_up(heap_.size() - 1);
  return {slot, slots_[slot].generation};
}

void Calendar::cancel(EventHandle handle) {
  if (handle.slot >= slots_.size() || slots_[handle.slot].generation != handle.generation) return;
  remove_at(slots_[handle.slot].place);
}

void Calendar::set_standing(Event event) {
  event.id = ++last_id_;
  standing_ = event;
}

Event Calendar::pop() {
  if (standing_first()) {
    const Event event = standing_;
    clear_standing();
    return event;
  }
  const Event event = slots_[heap_[0]].event;
  remove_at(0);
  return event;
}

bool Calendar::before(const Event& x, const Event& y) {
  if (x.at != y.at) return x.at < y.at;
  if (x.phase != y.phase) return x.phase < y.phase;
  return x.id < y.id;
}

void Calendar::put(std::size_t place, std::uint32_t slot) {
  heap_[place] = slot;
  slots_[slot].place = static_cast<std::uint32_t>(place);
}

void Calendar::sift_up(std::size_t place) {
  const std::uint32_t slot = heap_[place];
  while (place > 0) {
    const std::size_t parent = (place - 1) / 4;
    if (!before(slot, heap_[parent])) break;
    put(place, heap_[parent]);
    place = parent;
  }
  put(place, slot);
}

void Calendar::sift_down(std::size_t place) {
  const std::uint32_t slot = heap_[place];
  for (;;) {
    const std::size_t first = 4 * place + 1;
    if (first >= heap_.size()) break;
    std::size_t least = first;
    for (std::size_t c = first + 1; c < std::min(first + 4, heap_.size()); ++c) {
      if (before(heap_[c], heap_[least])) least = c;
    }
    if (!before(heap_[least], slot)) break;
    put(place, heap_[least]);
    place = least;
  }
  put(place, slot);
}

void Calendar::remove_at(std::size_t place) {
  const std::uint32_t slot = heap_[place];
  ++slots_[slot].generation;
  free_.push_back(slot);
  const std::uint32_t last = heap_.back();
  heap_.pop_back();
  if (place == heap_.size()) return;
  put(place, last);
  sift_up(place);
  sift_down(slots_[last].place);
}

std::uint64_t Calendar::state_hash() const {
  std::vector<std::uint32_t> order = heap_;
  std::sort(order.begin(), order.end(),
            [this](std::uint32_t a, std::uint32_t b) { return before(a, b); });
  std::uint64_t h = last_id_;
  const auto add = [&h](const Event& e) {
    h = mix(mix(mix(h, static_cast<std::uint64_t>(e.at)), e.id), e.cause);
    h = mix(mix(h, (std::uint64_t{e.target} << 32) | (std::uint64_t{e.kind} << 8) |
                       static_cast<std::uint64_t>(e.phase)),
            static_cast<std::uint64_t>(e.number));
    h = hash_bytes(&e.value, sizeof e.value, h);
  };
  for (const std::uint32_t slot : order) add(slots_[slot].event);
  if (standing_.at != kNever) add(standing_);
  return h;
}

}  // namespace sixty
