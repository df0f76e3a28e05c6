// The paper hangs flat in front of its drum: what is below the fingers comes next. A hole is where
// the program has one; a finger in a hole touches the drum.
#include <array>

#include "models/tape/tape.hpp"
#include "sim/base/weekdays.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

constexpr double kHalf = 102;       // of the paper's width
constexpr double kRowApart = 12.2;  // from one row to the next
constexpr int kAbove = 3, kBelow = 46;
constexpr double kEdge = 92;  // where the sprocket holes are
constexpr double kFirst = -46, kApart = 31;

double column_x(std::size_t column) { return kFirst + kApart * static_cast<double>(column); }

}  // namespace

void Tape::draw(Figure& f, const Pose& at, const Reader& r) const {
  const Figure::Within within(f, at);
  const TapeState& s = r.state(state_);
  const DayProgram& program = r.state(program_);
  f.box(Material::kDeepBrass, {-kHalf - 16, -34}, {kHalf + 16, 30}, 6);
  f.box(Material::kPaper, {-kHalf, -40}, {kHalf, kBelow * kRowApart + 24}, 8);
  for (int k = -kAbove; k <= kBelow; ++k) {
    const std::int64_t row = wrapped(s.row + k);
    const double y = k * kRowApart;
    const bool fifth = row % 5 == 0;
    if (fifth) f.line(Material::kInk, std::array{Point{-80, y}, Point{84, y}}, 0.6);
    if (fifth && k > 0)
      f.text(Material::kInk, {-68, y - 6}, 11, format_minute_of_day(static_cast<int>(row)));
    for (const double x : {-kEdge, kEdge}) f.disc(Material::kHollow, {x, y}, 2.4);
    const auto open = program.acts[static_cast<std::size_t>(row)];
    for (std::size_t i = 0; i < fingers_.size(); ++i) {
      if (holds(open, i)) f.disc(Material::kHollow, {column_x(i), y}, 4.6);
    }
  }
  f.box(Material::kInsulation, {-80, -92}, {kHalf, -74}, 4);
  for (std::size_t i = 0; i < fingers_.size(); ++i) {
    const double x = column_x(i);
    const bool down = holds(s.down, i);
    const double current = r.contact_current_a(fingers_[i]);
    // Through a hole the finger reaches farther down.
    Shape& finger =
        f.line(Material::kSteel,
               std::array{Point{x - 8, -80}, Point{x - 5, -50}, Point{x, down ? -1.0 : -9.0}}, 5,
               down ? 2 : 7);
    finger.current_a = r.contact_conducts(fingers_[i]) ? current : 0;
    f.disc(Material::kBrass, {x - 8, -83}, 5, 1);
    f.terminal("finger_" + std::to_string(i + 1), {x - 8, -92});
    f.text(Material::kInk, {x, kBelow * kRowApart + 13}, 12, std::to_string(i + 1));
  }
  f.terminal("drum", {-kHalf - 16, 0});
  f.label({column_x(0) - 4, -40}, to_tr("sensing fingers"), {-kHalf - 28, -58});
  // The fingers and the next quarter of an hour; the rest is but more paper.
  f.focus({-kHalf - 16, -92}, {kHalf + 16, 16 * kRowApart});
  f.name_at({0, kBelow * kRowApart + 26});
}

}  // namespace sixty::models
