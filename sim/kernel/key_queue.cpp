#include "sim/kernel/key_queue.hpp"

#include <algorithm>

namespace sixty {

std::vector<EventKey> KeyQueue::keys() const {
  std::vector<EventKey> all(run_.begin() + static_cast<std::ptrdiff_t>(head_), run_.end());
  all.insert(all.end(), heap_.begin(), heap_.end());
  return all;
}

void KeyQueue::put_within(const EventKey& key) {
  // Behind a key of the far future every other is put in here.
  if (head_ >= kMostGone) close_up();
  std::size_t place = run_.size() - 1;  // the last one is after the key
  const std::size_t least = std::max(head_, run_.size() - std::min(run_.size(), kReach));
  while (place > least && key.before(run_[place - 1])) --place;
  if (place > head_ && key.before(run_[place - 1])) {
    if (put_near_front(key)) return;
    spill_after(key);
    run_.emplace_back(key.at, key.rank, key.slot);
    return;
  }
  run_.push_back(run_.back());
  for (std::size_t k = run_.size() - 2; k > place; --k) run_[k] = run_[k - 1];
  run_[place] = {key.at, key.rank, key.slot};
}

/// Among the first few, where those that have gone left a place.
bool KeyQueue::put_near_front(const EventKey& key) {
  if (head_ == 0) return false;
  std::size_t place = head_;
  while (run_[place].before(key)) {
    if (++place == head_ + kReach) return false;
  }
  for (std::size_t k = head_; k < place; ++k) run_[k - 1] = run_[k];
  run_[place - 1] = {key.at, key.rank, key.slot};
  --head_;
  return true;
}

/// Moves to the heap what the run has after a key. A key goes there at most once.
void KeyQueue::spill_after(const EventKey& key) {
  const auto from =
      std::lower_bound(run_.begin() + static_cast<std::ptrdiff_t>(head_), run_.end(), key,
                       [](const EventKey& a, const EventKey& b) { return a.before(b); });
  for (auto k = from; k != run_.end(); ++k) put_in_heap(*k);
  run_.erase(from, run_.end());
}

/// Does away with the places before the head, unless moving the rest costs more than they saved.
void KeyQueue::close_up() {
  if (2 * head_ < run_.size()) return;
  run_.erase(run_.begin(), run_.begin() + static_cast<std::ptrdiff_t>(head_));
  head_ = 0;
}

void KeyQueue::put_in_heap(const EventKey& key) {
  std::size_t place = heap_.size();
  heap_.push_back(key);
  while (place > 0) {
    const std::size_t parent = (place - 1) / 4;
    if (!key.before(heap_[parent])) break;
    heap_[place] = heap_[parent];
    place = parent;
  }
  heap_[place] = key;
}

void KeyQueue::drop_heap_first() {
  const EventKey key = heap_.back();
  heap_.pop_back();
  if (heap_.empty()) return;
  std::size_t place = 0;
  for (;;) {
    const std::size_t first = 4 * place + 1;
    if (first >= heap_.size()) break;
    std::size_t least = first;
    for (std::size_t c = first + 1; c < std::min(first + 4, heap_.size()); ++c) {
      if (heap_[c].before(heap_[least])) least = c;
    }
    if (!heap_[least].before(key)) break;
    heap_[place] = heap_[least];
    place = least;
  }
  heap_[place] = key;
}

}  // namespace sixty
