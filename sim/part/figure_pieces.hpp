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
/// A tray of cells, 220 units wide, its top at the origin.
void draw_cells(Figure& figure, int cells);
/// A transformer on a tray of that size.
void draw_transformer(Figure& figure);
/// A wheel's spokes, from its hub to its rim.
void draw_spokes(Figure& figure, Material material, int spokes, double hub, double rim,
                 double half_width);

}  // namespace sixty
