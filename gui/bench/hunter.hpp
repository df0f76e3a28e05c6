#pragma once

#include <atomic>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <vector>

#include "gui/bench/clerk.hpp"
#include "sim/diagnose/next_check.hpp"
#include "sim/diagnose/shelf.hpp"
#include "sim/diagnose/sign_search.hpp"
#include "sim/scene/injection.hpp"

namespace sixty::gui {

/// What of a fault hunt takes time, on threads of its own: the installation's library, found on
/// the shelf or run, and what looks at hidden faults would show on one; what explains what was
/// noticed on another, so that it is told from the runs that there are while others are made.
class Hunter {
 public:
  /// `cache`: folder that was chosen for what can be made again. Order: the registry outlives it.
  Hunter(const Registry& registry, diagnose::LibraryPlan plan, std::string cache);
  /// What is being done is given up within an hour of the scene.
  ~Hunter();
  Hunter(const Hunter&) = delete;
  Hunter& operator=(const Hunter&) = delete;

  /// What the form of observations needs, as soon as the scene is read.
  struct Form {
    std::shared_ptr<const Installation> installation;
    std::vector<diagnose::SignAt> signs;
    diagnose::WatchPlan watch;
    diagnose::SignSearch search;
    std::vector<std::string> doings, weather;  ///< that may be known beforehand
    std::vector<std::string> places;           ///< where something was done
  };
  /// What explains some observations, and what would tell more.
  struct Verdict {
    std::shared_ptr<const diagnose::Library> library;  ///< that it is from
    bool provisional = false;                          ///< some of its runs are still to be made
    std::vector<diagnose::Observation> observations;
    diagnose::Ranking ranking;
    bool has_next = false;  ///< the checks have been weighed too
    std::vector<diagnose::Proposal> checks, questions;
  };
  enum class Stage : std::uint8_t { kReading, kSound, kFaults, kReady, kFailed };
  struct Told {
    Stage stage = Stage::kReading;
    std::size_t done = 0, all = 0;  ///< runs of the library
    bool reused = false;            ///< it was on the shelf
    std::string failure;            ///< why there is no library, or why it was not kept
    std::shared_ptr<const Form> form;
    /// Before it is ready: of the runs that there are so far.
    std::shared_ptr<const diagnose::Library> library;
    std::shared_ptr<const Verdict> verdict;  ///< of what was asked last, or before
    bool busy = false;
    /// What the look number so-and-so at the hidden faults has shown.
    std::uint64_t look = 0;
    std::vector<diagnose::Observation> seen;
  };
  Told told() const;

  /// Weighs them as soon as there is a library, and anew when there is more of it, in place of what
  /// was asked before. Where nothing was looked at, nothing is weighed, and there is no verdict.
  void weigh(std::vector<diagnose::Observation> observations);
  enum class Look : std::uint8_t {
    kReports,  ///< what people tell by themselves
    kAsked,    ///< what they answer when asked for one sign, wherever it may be
    kChecked   ///< what a check finds
  };
  /// Looks at the installation with faults in it that nobody knows, for these signs. Order: the
  /// library is ready. Range: number > 0; signs, but for reports.
  void look(std::uint64_t number, Look how, std::vector<std::size_t> signs,
            std::vector<Injection> hidden);
  /// Until all that was asked is done (for pictures and tests).
  void wait() const {
    maker_.wait();
    weigher_.wait();
  }

 private:
  void make();
  void make_library();
  void fill(const std::shared_ptr<diagnose::Library>& library);
  void take(std::shared_ptr<const diagnose::Library> library, bool ready);
  void weigh_anew();
  std::vector<diagnose::Observation> asked_now() const;
  void answer(const std::vector<diagnose::Observation>& observations, std::uint64_t number);
  void publish(const Verdict& verdict, std::uint64_t number);
  void go_and_look(std::uint64_t number, Look how, const std::vector<std::size_t>& signs,
                   const std::vector<Injection>& hidden);
  template <class Change>
  void change(const Change& change) {
    const std::lock_guard lock(mutex_);
    change(told_);
  }

  const Registry& registry_;
  const diagnose::LibraryPlan plan_;
  const std::string cache_;
  std::unique_ptr<const diagnose::Books>
      books_;            ///< the maker's, and once there is a library both's
  std::string watched_;  ///< the maker's: which hidden faults `shown_` is of
  std::vector<float> shown_;
  mutable std::mutex mutex_;
  Told told_;                                     ///< but whether it is busy
  std::mutex asking_;                             ///< both threads ask
  std::vector<diagnose::Observation> asked_for_;  ///< last
  std::atomic<std::uint64_t> asked_ = 0;
  std::shared_ptr<std::atomic<bool>> ends_ = std::make_shared<std::atomic<bool>>(false);
  Clerk weigher_, maker_;  // last: they use all of the others, and the second the first
};

}  // namespace sixty::gui
