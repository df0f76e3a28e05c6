#pragma once

#include <array>
#include <cstdint>

#include "sim/part/part.hpp"

namespace sixty::models {

constexpr std::size_t kMostColumns = 8;
constexpr std::size_t kMostRows = DayProgram::kMostMinutes;

using Columns = std::uint8_t;  ///< bit 0: column 1

inline bool holds(Columns columns, std::size_t i) { return (unsigned{columns} & (1U << i)) != 0; }

/// What is at the edge of a row.
enum Edge : std::uint8_t { kNotch = 1, kTorn = 2 };

/// The loop of paper as it was made, worn and mended before the start. Plain data by row.
struct Paper {
  std::array<Columns, kMostRows> open = {};    ///< columns whose finger drops there
  std::array<Columns, kMostRows> joined = {};  ///< columns with no paper up to the next row
  std::array<std::uint8_t, kMostRows> edge = {};
};

/// How far along the paper a finger may stand from a hole's row and still drop: where the whole tip
/// is over the opening. Units: m.
struct Opening {
  double to_earlier_m = 0;
  double to_later_m = 0;
};

/// Sizes that decide which rows an opening serves. Units: m.
struct Sizes {
  double pitch_m = 0;
  double hole_m = 0;
  double finger_m = 0;
  double out_of_line_m = 0;  ///< fingers stand that far towards later rows
};

/// Rows that a hole serves, as seen from its own row (0), both included; none if first > last.
/// `torn`: how far the hole's edges have given way.
struct RowsServed {
  std::int64_t first = 0, last = -1;
};
RowsServed rows_served(const Sizes& sizes, const Opening& torn);

/// Sizes across the paper, which is led by its edge and grows with the air's humidity.
struct Across {
  double first_m = 0;        ///< from the edge to column 1
  double pitch_m = 0;        ///< from column to column
  double play_m = 0;         ///< that a finger's tip has in a hole, to either side
  double growth = 0;         ///< share of the width by which dry air's paper grows to damp air's
  double out_of_line_m = 0;  ///< fingers stand that far from the edge too much
};
Across across_of(const Builder& b);
/// Columns whose finger still finds its hole. Fingers were set in air of 50 %. Range: 0 <= humidity
/// <= 1.
Columns columns_in_line(const Across& across, double humidity);

/// Reads rows, columns, holes, wear, stickers and edges. Errors: refused at the builder.
Paper paper_of(Builder& b);
void declare_paper(Declaration& d);

}  // namespace sixty::models
