#pragma once

#include <condition_variable>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "sim/instruments/measure.hpp"

namespace sixty::gui {

/// Orders of all that can be measured at a part, as instruments::read_order() takes them: volts,
/// amperes and ohms where it has two ends, and what can be heard, felt or timed at it.
std::vector<std::string> orders_at(const Installation& installation, PartId part);

/// What instruments show at an instant that were laid on a while before, so that a needle has come
/// to where it would be then: a session of their own feels them, on a thread of its own.
class Meters {
 public:
  explicit Meters(std::shared_ptr<const Installation> installation);
  ~Meters();
  Meters(const Meters&) = delete;
  Meters& operator=(const Meters&) = delete;

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
  };
  std::shared_ptr<const Told> told() const;
  /// Waits for all that was asked (for pictures and tests).
  void wait() const;

 private:
  struct Asked {
    std::vector<instruments::Order> orders;
    Log log;
    SimTime now = 0;
  };
  void loop();
  std::shared_ptr<const Told> read(const Asked& asked);

  mutable std::mutex mutex_;
  mutable std::condition_variable changed_;
  std::optional<Asked> asked_;
  bool ends_ = false, busy_ = false;
  std::shared_ptr<const Told> told_;
  Session session_;     ///< the thread's own
  std::thread thread_;  // last: it uses all of the others
};

}  // namespace sixty::gui
