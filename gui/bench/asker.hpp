#pragma once

#include <atomic>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "gui/bench/clerk.hpp"
#include "sim/explain/answer.hpp"
#include "sim/explain/difference.hpp"

namespace sixty::gui {

/// What is asked about a part when somebody points at it: whatever begins at it about that time.
/// `known`: nothing later is asked about.
explain::Question question_about(const Installation& installation, PartId part, SimTime at,
                                 SimTime known);

/// Answers why something happened or did not, and where a run first goes otherwise than a sound
/// one, on a thread of its own: both are run anew from the start.
class Asker {
 public:
  /// `sound`: the same installation without faults.
  Asker(std::shared_ptr<const Installation> installation, std::shared_ptr<const Installation> sound)
      : installation_(std::move(installation)), sound_(std::move(sound)) {}
  /// What is being looked for is given up.
  ~Asker();
  Asker(const Asker&) = delete;
  Asker& operator=(const Asker&) = delete;

  using Log = std::shared_ptr<const std::vector<Action>>;
  /// Takes the place of what was asked before.
  void ask(explain::Question question, Log log);
  /// Where the run with that log first goes otherwise, up to an instant.
  void compare(Log log, SimTime until);

  struct Told {
    bool busy = false;
    bool answers = false;                  ///< it is busy with a question
    std::optional<SimTime> come, goes_to;  ///< how far the runs of the question have come, of what
    std::string headline;                  ///< names in it, and in the links, as people write them
    std::vector<explain::Link> links;
    std::string failure;  ///< why there is no answer
    /// The first deed that differs, once it has been looked for.
    std::optional<explain::Difference> first;
  };
  Told told() const;
  /// Nothing is asked any more; what is being answered is given up within an hour of the scene.
  void forget();
  /// Waits for all that was asked (for pictures and tests).
  void wait() const { clerk_.wait(); }

 private:
  template <class Deed>
  std::string run_both(const Log& log, const Deed& deed) const;
  void answer(const explain::Question& question, const Log& log, std::uint64_t number);

  std::shared_ptr<const Installation> installation_, sound_;
  mutable std::mutex mutex_;
  std::atomic<std::uint64_t> asked_ = 0;  ///< the number of the question that still matters
  std::atomic<bool> ends_ = false;
  Told told_;    ///< but whether it is busy
  Clerk clerk_;  // last: it uses all of the others
};

}  // namespace sixty::gui
