#pragma once

#include <functional>
#include <vector>

#include "sim/instruments/indicator.hpp"
#include "sim/run/session.hpp"

namespace sixty::instruments {

/// Goes through a run and lets indicators follow quantities of its network: densely behind each
/// event, in one piece while all rests, and once for all while it does the same in each half period
/// of the mains.
class Follower {
 public:
  using Quantity = std::function<double(const Session::CircuitNow&)>;
  /// Longest piece while something changes. An instrument's own time is longer by far; behind an
  /// event pieces begin a microsecond long and grow as it lies behind.
  static constexpr SimTime kPiece = 500 * kMicrosecond;

  explicit Follower(Session& session) : session_(session) {}
  /// Both must outlive the follower.
  void add(Quantity quantity, Indicator& indicator) {
    followed_.push_back({std::move(quantity), &indicator});
  }
  /// From the session's present on, up to and including `until`.
  void run(SimTime until);

 private:
  struct Followed {
    Quantity quantity;
    Indicator* indicator;
  };
  using Values = std::vector<double>;
  Values look() const;
  void tell(const Values& before, const Values& after, double seconds);
  void go_through(SimTime until);
  void step_to(SimTime t);
  void hum(SimTime until);

  Session& session_;
  std::vector<Followed> followed_;
  Values now_;
};

}  // namespace sixty::instruments
