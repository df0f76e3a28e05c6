#pragma once

#include <memory>
#include <vector>

#include "sim/part/part.hpp"

namespace sixty {

/// The parts' logs of a run. Only the last few entries are copied with a world; older ones lie in
/// chunks that all copies share.
class Journal {
 public:
  void add(const JournalEntry& entry);
  /// Entries of one part, oldest first.
  std::vector<JournalEntry> of(PartId part) const;
  std::uint64_t state_hash() const;

 private:
  struct Chunk {
    std::vector<JournalEntry> entries;
    std::shared_ptr<const Chunk> older;
  };
  static constexpr std::size_t kChunk = 64;
  std::shared_ptr<const Chunk> older_;
  std::vector<JournalEntry> recent_;
};

}  // namespace sixty
