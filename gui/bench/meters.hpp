#pragma once

#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "gui/bench/clerk.hpp"
#include "sim/instruments/measure.hpp"

namespace sixty::gui {

/// Orders of all that can be measured at a part, as instruments::read_order() takes them: volts,
/// amperes and ohms where it has two ends, and what can be heard, felt or timed at it.
std::vector<std::string> orders_at(const Installation& installation, PartId part);

/// What instruments show at an instant that were laid on a while before, so that a needle has come
/// to where it would be then: a session of their own feels them, on a thread of its own.
class Meters {
 public:
  explicit Meters(std::shared_ptr<const Installation> installation)
      : told_(std::make_shared<const Told>()), session_(std::move(installation)) {}

  /// How long before they are laid on, and listened.
  static constexpr SimTime kLaidOn = 3 * kSecond;
  static constexpr SimTime kListens = 20 * kSecond;

  using Log = std::shared_ptr<const std::vector<Action>>;
  /// Takes the place of what was asked before.
  void ask(std::vector<instruments::Order> orders, Log log, SimTime now);
  struct Told {
    SimTime at = -1;  ///< -1: nothing has been read yet
    std::vector<instruments::Order> orders;
    std::vector<instruments::Answer> answers;
    std::string failure;  ///< why there are none
    /// nullptr: it has not been read.
    const instruments::Answer* of(const instruments::Order& order) const;
  };
  std::shared_ptr<const Told> told() const;
  /// Waits for all that was asked (for pictures and tests).
  void wait() const { clerk_.wait(); }
  bool is_busy() const { return clerk_.is_busy(); }

 private:
  std::shared_ptr<const Told> read(const std::vector<instruments::Order>& orders, const Log& log,
                                   SimTime now);

  mutable std::mutex mutex_;
  std::shared_ptr<const Told> told_;
  Session session_;  ///< the clerk's
  Clerk clerk_;      // last: it uses all of the others
};

}  // namespace sixty::gui
