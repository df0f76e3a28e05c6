#pragma once

#include <vector>

#include "sim/part/figure.hpp"

namespace sixty {

/// Points of an arc, angles clockwise from twelve o'clock.
std::vector<Point> arc_of(Point centre, double radius, double from_rad, double to_rad, int pieces);
/// A spiral of so many turns from an inner to an outer radius, from twelve o'clock on.
std::vector<Point> spiral_of(double inner, double outer, double turns, double from_rad);
/// A coiled spring between two points.
std::vector<Point> helix_of(Point a, Point b, double radius, int coils);

void draw_screw(Figure& figure, Point at, double radius, double slot_rad);
/// A winding cut open: its wires, in rows, lit by what flows through them. Range: corner above and
/// to the left of the opposite one.
void draw_winding(Figure& figure, Point corner, Point opposite, double wire_radius,
                  double current_a);
/// An arrow from one point to another. Range: they are apart.
void draw_arrow(Figure& figure, Material material, Point from, Point to, double width);
/// The flux in a closed iron way that is drawn as an upright rectangle: one to three lines side by
/// side, which go as in the core, `leftwards`, along the side at `core_y`. `share`: of what
/// saturates the iron; they are the more and the heavier the greater it is, none below a hundredth.
/// Range: corner above and to the left of the opposite one; core_y is either of their heights.
void draw_flux(Figure& figure, Point corner, Point opposite, double core_y, bool leftwards,
               double share);
/// A quantity beside what it is of: "gap 2.017 mm".
std::string measure_text(const char* what, double value, const char* unit);
/// What a source looks like, with its terminals `plus` and `minus` and its name: a tray 236 units
/// wide, the middle of its top at the pose.
void draw_cells(Figure& figure, const Pose& at, std::size_t cells);
void draw_transformer(Figure& figure, const Pose& at);
/// A wheel's spokes, from its hub to its rim.
void draw_spokes(Figure& figure, Material material, int spokes, double hub, double rim,
                 double half_width);

}  // namespace sixty
