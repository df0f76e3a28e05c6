#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "gui/views/house.hpp"
#include "gui/views/loop_lines.hpp"
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

/// The largest radius of rings round a figure's terminals that keep apart from each other and stay
/// small beside it. Units: of the drawing.
double ring_of(const Figure& figure);

/// A picture of a part at a second place, where it has its room.
struct SecondPlace {
  PartId part = 0;
  Point corner, opposite;  ///< it fits into
};

/// The whole installation as one drawing: the building with its rooms, and the master's case in
/// one of them. Where things are is settled once for a scene; what they look like at each moment
/// anew.
class Stage {
 public:
  Stage() = default;
  explicit Stage(const Installation& installation);
  /// Draws all parts as they are now, one of them as seen from close by, and what flows in the
  /// wires.
  void look(Session& session, std::optional<PartId> close = std::nullopt);

  const std::vector<Placed>& parts() const { return parts_; }
  const House& house() const { return *house_; }
  const std::vector<Chamber>& chambers() const { return house_->chambers; }
  const LoopLines& lines() const { return lines_; }
  /// Parts of the case that have a room of their own, there.
  const std::vector<SecondPlace>& second_places() const { return second_places_; }
  const Wiring& wiring() const { return wiring_; }
  /// Largest current in the wires now. Units: A.
  double largest_current_a() const { return largest_a_; }
  const Pose& case_pose() const { return house_->case_pose; }
  std::pair<Point, Point> building() const { return house_->box; }
  /// The case's board.
  std::pair<Point, Point> case_box() const;
  /// nullptr if it is not on the stage.
  const Placed* find(PartId part) const;
  /// The smallest handle at a place, and whose it is; nullptr if there is none.
  std::pair<PartId, const Handle*> handle_at(Point place) const;
  /// The terminal nearest to a place, no farther than `within`, of those that have room for a ring
  /// of that radius.
  std::optional<std::pair<PartId, std::string>> terminal_at(Point place, double within,
                                                            double least_ring) const;
  /// The part that is seen at a place: the one in front of which a piece covers it, or else, near
  /// a part's pieces, the one of the smallest extent; nullptr if none is. Units: a line is met as
  /// far as `within` beside it, in those of the drawing.
  const Placed* at(Point place, double within = 2) const;

 private:
  void place_case(const Installation& installation);
  void place_rooms();
  void place_twins(const Installation& installation);
  void hang(const Installation& installation);
  struct Hung {
    PartId on = 0;     ///< whose figure says where
    std::string link;  ///< which it is taken by
  };
  bool find_pose(const Hung& hung, Pose& pose) const;
  void lay_wires(const Installation& installation);

  std::vector<Placed> parts_;
  std::vector<Hung> hung_;
  std::shared_ptr<const House> house_ = std::make_shared<const House>();
  std::vector<SecondPlace> second_places_;
  LoopLines lines_;
  Wiring wiring_;
  bool wired_ = false;
  double largest_a_ = 0;
};

}  // namespace sixty::gui
