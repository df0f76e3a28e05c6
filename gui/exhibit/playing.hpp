#pragma once

#include <atomic>
#include <future>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "gui/bench/bench.hpp"
#include "sim/exhibit/exhibit.hpp"
#include "sim/exhibit/rehearsal.hpp"

namespace sixty::gui {

/// Puts an exhibit's pieces on, in a run that is not that of the house, and fills in the numbers of
/// their words. All pieces are gone through once beforehand, on a thread of its own.
class Playing {
 public:
  explicit Playing(exhibit::Opened opened);
  ~Playing();
  Playing(const Playing&) = delete;
  Playing& operator=(const Playing&) = delete;

  /// Range: not one that is live.
  void begin(const exhibit::Take& take);
  /// Takes the latest picture; at the piece's end the run stands still. Returns whether it has
  /// come there. Order: begin() with the same piece first.
  bool follow(const exhibit::Take& take);
  /// It stands, out of sight.
  void rest();
  /// The picture is of the piece that was begun last: before, it is of the one before.
  bool is_begun() const { return bench_.picture().begun == begun_; }
  Bench& bench() { return bench_; }
  const Bench& bench() const { return bench_; }

  /// Words with their readings as they are now and the piece's numbers, in the spoken language.
  /// Errors: empty while the numbers are still being found.
  std::string words(const Sayings& sayings, const exhibit::Take& take);
  /// All pieces have been gone through.
  bool is_rehearsed();
  /// What is wrong with them, a line for each. Empty also while it is not known.
  std::vector<std::string> flaws();

 private:
  using Known = std::map<const exhibit::Take*, exhibit::Rehearsed>;

  exhibit::Opened opened_;
  Bench bench_;
  std::uint64_t begun_ = 0;
  bool stopped_ = false;
  std::optional<Known> known_;
  std::atomic<bool> ends_ = false;
  std::future<Known> rehearsal_;  // last: it uses the others
};

}  // namespace sixty::gui
