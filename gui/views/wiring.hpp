#pragma once

#include <map>
#include <memory>
#include <span>
#include <string>
#include <vector>

#include "sim/part/figure.hpp"
#include "sim/run/session.hpp"

namespace sixty::gui {

/// A stretch of wire with one current in it.
struct Run {
  std::span<const Point> way;
  circuit::Node net = -1;
  double current_a = 0;
};

/// The wires of the case, led in tidy lanes: along the top, along the foot, and up and down at both
/// sides of the column at the right. None crosses a mechanism.
class Wiring {
 public:
  /// A terminal of a part that stands in the case.
  struct End {
    PartId part = 0;
    std::string terminal;
    Point at;
    circuit::Node node = -1;
  };
  Wiring() = default;
  /// `pose`: of the case's board; the ends are given in its units.
  Wiring(std::vector<End> ends, const Pose& pose);
  /// Sets the currents. Units: A.
  void look(const Session& session);
  const std::vector<Run>& runs() const { return runs_; }

 private:
  enum class Exit : std::uint8_t { kTop, kFoot, kMiddle, kRight };
  struct Branch {
    std::vector<std::size_t> ends;  ///< whose currents all go through it
    std::size_t run = 0;
  };
  /// How many lanes are taken in each channel, and where wires run to them.
  struct Lanes {
    using Taken = std::vector<std::pair<double, circuit::Node>>;
    int top = 0, foot = 0, middle = 0, right = 0;
    Taken risers, fallers, to_middle;
  };
  class Router;
  static Exit exit_of(const End& end);
  void add(const Pose& pose, const std::vector<Point>& way, std::vector<std::size_t> ends);

  /// What stays as it is, shared by all copies; runs point into it.
  struct Laid {
    std::vector<End> ends;
    std::vector<std::vector<Point>> ways;
    std::vector<Branch> branches;
  };
  std::shared_ptr<Laid> laid_ = std::make_shared<Laid>();
  std::vector<Run> runs_;
};

}  // namespace sixty::gui
