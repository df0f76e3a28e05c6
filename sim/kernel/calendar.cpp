#include "sim/kernel/calendar.hpp"

#include <algorithm>
#include <utility>

#include "sim/base/hash.hpp"

namespace sixty {

namespace {

constexpr std::size_t kMostCancelled = 32;  // besides as many as there are events

}  // namespace

void Calendar::cancel(EventHandle handle) {
  if (handle.slot >= slots_.size() || slots_[handle.slot].generation != handle.generation) return;
  slots_[handle.slot].event.id = kSceneStart;
  release(handle.slot);
  ++cancelled_;
  drop_cancelled();
  if (cancelled_ > queue_.size() / 2 + kMostCancelled) sweep();
}

void Calendar::drop_cancelled() {
  while (cancelled_ != 0 && cancelled(queue_.first())) {
    queue_.drop_first();
    --cancelled_;
  }
}

void Calendar::sweep() {
  KeyQueue kept;
  for (const EventKey& key : queue_.keys()) {
    if (!cancelled(key)) kept.put(key);
  }
  queue_ = std::move(kept);
  cancelled_ = 0;
}

std::uint64_t Calendar::state_hash() const {
  std::vector<EventKey> order = queue_.keys();
  std::erase_if(order, [this](const EventKey& key) { return cancelled(key); });
  std::sort(order.begin(), order.end(),
            [](const EventKey& a, const EventKey& b) { return a.before(b); });
  std::uint64_t h = last_id_;
  const auto add = [&h](const Event& e) {
    h = mix(mix(mix(h, static_cast<std::uint64_t>(e.at)), e.id), e.cause);
    h = mix(mix(h, (std::uint64_t{e.target} << 32) | (std::uint64_t{e.kind} << 8) |
                       static_cast<std::uint64_t>(e.phase)),
            static_cast<std::uint64_t>(e.number));
    h = hash_bytes(&e.value, sizeof e.value, h);
  };
  for (const EventKey& key : order) add(slots_[key.slot].event);
  if (standing_.at != kNever) add(standing_);
  return h;
}

}  // namespace sixty
