#include "sim/run/journal.hpp"

#include <algorithm>

#include "sim/base/hash.hpp"

namespace sixty {

void Journal::add(const JournalEntry& entry) {
  if (recent_.size() == kChunk) {
    older_ = std::make_shared<const Chunk>(Chunk{std::move(recent_), older_});
    recent_.clear();
  }
  recent_.push_back(entry);
}

std::vector<JournalEntry> Journal::of(PartId part) const {
  std::vector<JournalEntry> found;
  const auto take = [&](const std::vector<JournalEntry>& entries) {
    for (auto it = entries.rbegin(); it != entries.rend(); ++it) {
      if (it->part == part) found.push_back(*it);
    }
  };
  take(recent_);
  for (const Chunk* c = older_.get(); c != nullptr; c = c->older.get()) take(c->entries);
  std::reverse(found.begin(), found.end());
  return found;
}

std::uint64_t Journal::state_hash() const {
  std::uint64_t h = 3;
  const auto fold = [&](const std::vector<JournalEntry>& entries) {
    for (const JournalEntry& e : entries) {
      h = mix(mix(h, static_cast<std::uint64_t>(e.at)), static_cast<std::uint64_t>(e.number));
      h = hash_bytes(&e.value, sizeof e.value, mix(h, (std::uint64_t{e.part} << 16) | e.kind));
    }
  };
  fold(recent_);
  for (const Chunk* c = older_.get(); c != nullptr; c = c->older.get()) fold(c->entries);
  return h;
}

}  // namespace sixty
