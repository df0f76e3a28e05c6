#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "gui/lesson/coach.hpp"
#include "sim/practice/progress.hpp"

namespace sixty::gui {

/// A page on which a hidden fault is hunted by hand: what people say, what can be done, and what
/// each thing was worth.
class PracticePage {
 public:
  /// What it asks of the window.
  struct Wish {
    /// Faults that are to be put into the run, and hidden; none: nothing is asked.
    std::vector<Injection> hide;
    std::vector<SimTime> from;                 ///< when each comes
    bool reveal = false;                       ///< they need not be hidden any more
    std::optional<practice::HuntTaken> taken;  ///< one has come to its end
  };
  /// Order: the registry outlives it; the library is whole.
  void show(const Registry& registry, const std::shared_ptr<const diagnose::Library>& library,
            Wish& wish);
  /// A scene's library is another.
  void forget() { coach_.reset(); }
  const Coach::Told& told() const { return told_; }
  bool is_busy() const { return coach_ != nullptr && coach_->is_busy(); }

 private:
  void follow(Wish& wish);
  void show_beginning();
  void show_deeds() const;
  void show_checks();
  void show_mending();
  void show_end();

  std::unique_ptr<Coach> coach_;
  Coach::Told told_;
  std::uint64_t hidden_ = 0;  ///< number of the case that has been put in
  bool ended_ = false;        ///< and that its end has been told
  int level_ = 0, seed_ = 1;
  std::string filter_;
  std::optional<PartId> part_;
  std::optional<std::size_t> suspect_;
};

}  // namespace sixty::gui
