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
/// What a source looks like, with its terminals `plus` and `minus` and its name: a tray 236 units
/// wide, the middle of its top at the pose.
void draw_cells(Figure& figure, const Pose& at, std::size_t cells);
void draw_transformer(Figure& figure, const Pose& at);
/// A wheel's spokes, from its hub to its rim.
void draw_spokes(Figure& figure, Material material, int spokes, double hub, double rim,
                 double half_width);

}  // namespace sixty
