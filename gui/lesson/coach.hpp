#pragma once

#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "gui/bench/clerk.hpp"
#include "sim/diagnose/shelf.hpp"
#include "sim/practice/hunt.hpp"

namespace sixty::gui {

/// Hides a fault and tells what comes of each thing that is done to find it, on a thread of its
/// own: each takes a ranking of all suspects, and the case some runs.
class Coach {
 public:
  /// Order: the registry outlives it.
  Coach(const Registry& registry, std::shared_ptr<const diagnose::Library> library);

  struct Told {
    std::uint64_t hunt = 0;  ///< number of the case; 0: none is hidden
    practice::Level level = practice::Level::kObvious;
    std::uint64_t seed = 0;
    std::string failure;  ///< why none could be
    std::vector<practice::Hidden> hidden;
    std::vector<std::string> reports;  ///< what people say
    std::vector<practice::Deed> deeds;
    std::vector<diagnose::Proposal> checks;  ///< that could be made now
    bool over = false;
    std::optional<practice::Score> score, best;  ///< as soon as it is over or given up
    std::vector<practice::Deed> best_deeds;
    std::vector<std::string> truths;  ///< what it was
    std::vector<std::string> why;     ///< from what was seen first to what is behind it
  };
  Told told() const;
  bool is_busy() const { return clerk_.is_busy(); }
  void wait() const { clerk_.wait(); }

  void hide(practice::Level level, std::uint64_t seed);
  void check(diagnose::Proposal proposal);
  void mend(std::size_t suspect);
  void prove();
  /// Tells what it was, and how it would have been found best.
  void end();

  const diagnose::Library& library() const { return *library_; }

 private:
  void publish();
  void tell_end();
  std::string truth_text(const practice::Hidden& hidden) const;

  Diagnostics unread_;
  Mistakes mistakes_{unread_};
  diagnose::CheckBook checks_;
  std::shared_ptr<const diagnose::Library> library_;
  std::unique_ptr<practice::Hunt> hunt_;  ///< the clerk's
  int tasks_ = 0;                         ///< each waits for those before it
  mutable std::mutex mutex_;
  Told told_;
  Clerk clerk_;  // last: it uses all of the others
};

}  // namespace sixty::gui
