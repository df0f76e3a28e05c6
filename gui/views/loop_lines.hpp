#pragma once

#include <memory>
#include <vector>

#include "gui/views/house.hpp"
#include "sim/run/session.hpp"

namespace sixty::gui {

/// A piece of a loop's line with one current in it.
struct Stretch {
  std::size_t loop = 0;
  std::vector<Point> way;
  bool pair = false;                ///< two wires side by side
  bool joins = false;               ///< its end is joined to what it leads to
  std::vector<std::size_t> beyond;  ///< parts of the loop, by their place in it, that it feeds
};

/// The place at which a line's number is written.
struct Tag {
  std::size_t loop = 0;
  Point at;
};

/// How the loops are led through the house: up from the case, along the ceilings, in the shaft from
/// storey to storey. A stretch carries what the parts beyond it take; on a series loop all carry
/// the same.
class LoopLines {
 public:
  LoopLines() = default;
  LoopLines(std::vector<Loop> loops, const House& house);
  /// Sets the currents.
  void look(const Session& session);

  const std::vector<Loop>& loops() const { return laid_->loops; }
  const std::vector<Stretch>& stretches() const { return laid_->stretches; }
  const std::vector<Tag>& tags() const { return laid_->tags; }
  /// In a stretch, positive. Units: A.
  double current_a(std::size_t stretch) const { return current_a_[stretch]; }
  /// Largest of a loop's. Units: A.
  double loop_a(std::size_t loop) const { return loop_a_[loop]; }
  double largest_a() const;
  /// What one of a loop's parts takes, by its place in it. Units: A.
  double part_a(std::size_t loop, std::size_t place) const { return part_a_[loop][place]; }

 private:
  struct Laid {
    std::vector<Loop> loops;
    std::vector<Stretch> stretches;
    std::vector<Tag> tags;
  };
  class Router;

  std::shared_ptr<const Laid> laid_ = std::make_shared<const Laid>();
  std::vector<double> current_a_, loop_a_;
  std::vector<std::vector<double>> part_a_;
};

}  // namespace sixty::gui
