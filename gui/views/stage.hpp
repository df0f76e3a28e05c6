#pragma once

#include <vector>

#include "gui/views/wiring.hpp"
#include "sim/part/figure.hpp"
#include "sim/run/session.hpp"

namespace sixty::gui {

/// A part's figure on the stage.
struct Placed {
  PartId part = 0;
  Pose pose;
  Figure figure;
};

/// A room on the stage, upright in front of the viewer.
struct Chamber {
  std::string name;
  Point corner, opposite;
};

/// The whole installation as one drawing: the building with its rooms, and the master's case beside
/// it. Where things are is settled once for a scene; what they look like at each moment anew.
class Stage {
 public:
  Stage() = default;
  explicit Stage(const Installation& installation);
  /// Draws all parts as they are now, and what flows in the wires.
  void look(Session& session);

  const std::vector<Placed>& parts() const { return parts_; }
  const std::vector<Chamber>& chambers() const { return chambers_; }
  const Wiring& wiring() const { return wiring_; }
  /// Largest current in the wires now. Units: A.
  double largest_current_a() const { return largest_a_; }
  const Pose& case_pose() const { return case_pose_; }
  std::pair<Point, Point> building() const { return building_; }
  /// The case's board.
  std::pair<Point, Point> case_box() const;
  static constexpr Point kCaseBoard{1600, 1000};
  /// nullptr if it is not on the stage.
  const Placed* find(PartId part) const;
  /// The smallest handle at a place, and whose it is; nullptr if there is none.
  std::pair<PartId, const Handle*> handle_at(Point place) const;
  /// The part whose figure is at a place; nullptr if none is.
  const Placed* at(Point place) const;

 private:
  void place_case(const Installation& installation);
  void place_rooms(const Installation& installation);
  void hang(const Installation& installation);
  struct Hung {
    PartId on = 0;     ///< whose figure says where
    std::string link;  ///< which it is taken by
  };
  bool find_pose(const Hung& hung, Pose& pose) const;
  void lay_wires(const Installation& installation);

  std::vector<Placed> parts_;
  std::vector<Hung> hung_;
  std::vector<Chamber> chambers_;
  std::pair<Point, Point> building_;
  Pose case_pose_;
  Wiring wiring_;
  bool wired_ = false;
  double largest_a_ = 0;
};

}  // namespace sixty::gui
