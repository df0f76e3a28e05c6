#pragma once

#include <string>
#include <vector>

#include "sim/part/part.hpp"

namespace sixty {

/// What banks of cells in series have in common, whatever is in the cells.

/// A line of straight pieces through points, level before the first and behind the last.
class Curve {
 public:
  struct Point {
    double x = 0, y = 0;
  };
  /// Range: one point or more, x rising.
  explicit Curve(std::vector<Point> points) : points_(std::move(points)) {}
  double at(double x) const;

 private:
  std::vector<Point> points_;
};

/// What the network feels of a bank: not each millivolt by which it runs down, but steps, since
/// transients are found again only behind a source that is exactly the same.
struct FeltSource {
  double emf_v = 0;
  double resistance_ohm = 1;
  /// Takes the bank's true values, rounded to a grid, if either has gone from what is felt by
  /// three quarters of a step. Steps: volts of emf, and a share of the resistance. Returns whether
  /// it did.
  bool follow(double true_emf_v, double true_ohm, double emf_step_v, double ohm_step);
};

/// How soon a bank reckons again what it has given: after ten minutes, or one while it works hard.
/// Units: A s of capacity, A of late.
SimTime next_reckoning(double capacity_as, double mean_a);

/// The command's cell, counted from 1, or the number of cells if there is none of that number.
std::size_t cell_of(double argument, std::size_t cells);
/// Argument of a command that means one cell.
ParamDecl cell_argument(double most);
/// A share of a bank's kind by which its cells differ, drawn for a cell by stream and number.
/// Range: of the result 1 - share .. 1 + share.
double drawn_factor(Ctx& ctx, std::uint32_t stream, std::uint64_t number, double share);

/// "cell 3", "cells 3, 5 and 7". Range: at least one.
std::string cells_named(const std::vector<std::size_t>& cells);

}  // namespace sixty
