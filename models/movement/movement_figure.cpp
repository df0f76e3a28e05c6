// What the movement looks like: true angles of pendulum, pallets and wheel, the wheel at about
// eight units to the millimetre, the pendulum's rod shortened.
#include <fmt/format.h>

#include <array>
#include <cmath>

#include "models/movement/escapement_outline.hpp"
#include "models/movement/movement.hpp"
#include "sim/base/math.hpp"
#include "sim/part/figure_pieces.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

constexpr double kRadius = 168;  // of the escape wheel's tips, in units of the drawing
constexpr double kBob_y = 712;   // below the suspension
constexpr double kBobRadius = 76;
constexpr double kNut_y = 806;
constexpr double kBeatPlate_y = 846;
constexpr double kQuarterTurn = 0.25;
constexpr double kPush_rad = 0.03;  // to which a hand draws a resting pendulum aside

using Pallet = EscapementShape::Pallet;

void draw_wheel(Figure& f, const EscapementShape& shape, Point centre, double turn_rad) {
  const Figure::Within within(f, {centre, turn_rad, 1});
  f.band(Material::kBrass, shape.teeth(), shape.rim(), 5);
  draw_spokes(f, Material::kBrass, 5, 0.2 * kRadius, 0.765 * kRadius, 0.034 * kRadius);
  f.disc(Material::kDeepBrass, {}, 0.235 * kRadius, 5);
  f.disc(Material::kBrass, {}, 0.205 * kRadius, 3);
}

void draw_pallets(Figure& f, const EscapementShape& shape, Point arbor, double angle_rad) {
  const Figure::Within within(f, {arbor, angle_rad, 1});
  f.area(Material::kSteel, shape.entry_arm(), 6);
  f.area(Material::kSteel, shape.exit_arm(), 6);
  f.disc(Material::kSteel, {}, 0.13 * kRadius, 4);
  f.disc(Material::kBrass, {}, 0.055 * kRadius, 2);
}

void draw_pendulum(Figure& f, Point arbor, double angle_rad, double nut_turns) {
  const Figure::Within within(f, {arbor, angle_rad, 1});
  f.box(Material::kBlueSteel, {-4, -6}, {4, 26}, 2);
  f.box(Material::kSteel, {-6.5, 22}, {6.5, 470}, 4);
  f.box(Material::kSteel, {-6.5, 492}, {6.5, kNut_y + 24}, 4);
  // Two wavy cuts say that the rod is drawn shorter than it is.
  for (const double y : {470.0, 492.0}) {
    std::vector<Point> wave;
    for (int k = 0; k <= 12; ++k) wave.push_back({-12.0 + 2.0 * k, y + 4 * det_sin(kPi * k / 3)});
    f.line(Material::kSteel, wave, 1.6);
  }
  f.disc(Material::kBrass, {0, kBob_y}, kBobRadius, 9);
  f.disc(Material::kDeepBrass, {0, kBob_y}, kBobRadius * 0.93, 0);
  f.disc(Material::kBrass, {0, kBob_y}, kBobRadius * 0.89, 0);
  f.disc(Material::kSteel, {0, kBob_y}, 17, 3);
  f.disc(Material::kDeepBrass, {0, kBob_y}, 9, 1);
  // The rating nut, a millimetre of thread to a turn.
  const double up = nut_turns * 2;
  f.box(Material::kDeepBrass, {-17, kNut_y - up}, {17, kNut_y + 13 - up}, 3);
  for (int k = -3; k <= 3; ++k)
    f.line(Material::kBrass,
           std::array{Point{k * 4.6, kNut_y - up + 1}, Point{k * 4.6, kNut_y + 12 - up}}, 1.6);
  f.handle("turn_nut", "", {-40, kNut_y - up - 4}, {0, kNut_y + 17 - up}, -kQuarterTurn);
  f.handle("turn_nut", "", {0, kNut_y - up - 4}, {40, kNut_y + 17 - up}, kQuarterTurn);
  f.area(Material::kSteel,
         std::array{Point{-4, kNut_y + 22}, Point{4, kNut_y + 22}, Point{0, kNut_y + 34}}, 2);
}

/// Half-degrees on an arc about the suspension, true to the drawn length.
void draw_beat_plate(Figure& f, Point arbor) {
  constexpr double kEnds = 4.2 * kDegree;
  std::vector<Point> plate = arc_of(arbor, kBeatPlate_y, kPi - kEnds, kPi + kEnds, 16);
  const std::vector<Point> low = arc_of(arbor, kBeatPlate_y + 26, kPi + kEnds, kPi - kEnds, 16);
  plate.insert(plate.end(), low.begin(), low.end());
  f.area(Material::kIvory, plate, 2);
  for (int half = -7; half <= 7; ++half) {
    const double a = kPi + half * 0.5 * kDegree;
    const double length = half % 2 == 0 ? 10 : 6;
    f.line(Material::kInk,
           std::array{arbor + polar(kBeatPlate_y + 1, a), arbor + polar(kBeatPlate_y + length, a)},
           1.1);
  }
  for (const int whole : {-2, 0, 2})
    f.text(Material::kInk, arbor + polar(kBeatPlate_y + 18, kPi - whole * kDegree), 10,
           fmt::format("{}°", std::abs(whole)));
}

}  // namespace

EscapementShape Movement::escapement_shape() const {
  return {kRadius, values_.release_rad, values_.push_from_rad, drop_rad_};
}

double Movement::pendulum_rad(const MovementState& s, const Reader& r) const {
  if (s.going == Going::kAtRest) return 0;
  const double k2 = energy_now(s, r.now()) * s.beat.k2_per_j;
  const double half_ns = half_period_ns(s.beat, torques(s, r), s.now);
  const double phase = static_cast<double>(r.now() - s.now.dead_ns) / half_ns * kPi;
  const double arc = 2 * det_asin(std::sqrt(k2));
  return (s.now.side == 0 ? arc : -arc) * det_sin(phase);
}

// The tooth that came last has dropped `since_s` ago; then the wheel stands until the pallets let
// it push, and goes with them until it drops again.
double Movement::wheel_moved_rad(const MovementState& s, const Reader& r, Pallet locks,
                                 double pallets_rad) const {
  if (s.going != Going::kBeats) return 0;
  const double half_ns = half_period_ns(s.beat, torques(s, r), s.now);
  const double dropped_ns = static_cast<double>(s.now.dead_ns) - half_ns +
                            drop_delay_s(s.beat, 1 - s.now.side, s.now.energy_j) * 1e9;
  const double share =
      (static_cast<double>(r.now()) - dropped_ns) * 1e-9 * fall_rad_per_s_ / drop_rad_;
  if (share >= 0 && share < 1 && s.now.beats > s.first_beats)
    return -drop_rad_ * (1 - share * share);
  if (r.now() < s.now.dead_ns - kSecond / 2) return 0;
  return escapement_shape().pushed_rad(locks, pallets_rad);
}

double Movement::wheel_rest_rad(const MovementState& s) const {
  return static_cast<double>(place(s, s.now.beats)) * 6 * kDegree;
}

double Movement::wheel_rad(const MovementState& s, const Reader& r) const {
  const Pallet locks = s.now.side == 0 ? Pallet::kEntry : Pallet::kExit;
  const double pallets = pendulum_rad(s, r) - s.crutch_rad;
  const double angle = wheel_rest_rad(s) + wheel_moved_rad(s, r, locks, pallets);
  return angle < 0 ? angle + 2 * kPi : angle;
}

void Movement::draw(Figure& f, const Pose& at, const Reader& r) const {
  const MovementState& s = r.state(state_);
  const EscapementShape shape = escapement_shape();
  const Figure::Within within(f, at);
  const Point arbor{0, 0};
  const Point wheel{0, shape.arbor_above()};
  const double pendulum = pendulum_rad(s, r);
  // The crutch off, the pallets come to where they let a tooth go so much later.
  const double pallets = pendulum - s.crutch_rad;
  // The tooth that lies on a pallet has its tip there; everything else follows from it.
  const Pallet locks = s.now.side == 0 ? Pallet::kEntry : Pallet::kExit;
  const double rest = wheel_rest_rad(s);
  const double moved = wheel_moved_rad(s, r, locks, pallets);
  const double beside = kRadius * 1.15;
  f.focus({-beside, -20}, {beside, wheel.y + beside});
  draw_beat_plate(f, arbor);
  draw_pendulum(f, arbor, pendulum, s.nut_turns);
  // A hand starts a pendulum that rests, and holds one that swings.
  const Point bob = arbor + polar(kBob_y, kPi + pendulum);
  const Point around{kBobRadius, kBobRadius};
  if (s.going == Going::kAtRest)
    f.handle("start", "", bob - around, bob + around, kPush_rad);
  else
    f.handle("stop", "", bob - around, bob + around);
  draw_wheel(f, shape, wheel, EscapementShape::locked_rad(locks) + moved);
  f.anchor("escape_arbor", {wheel, rest + moved, 1});
  f.box(Material::kSteel, {-62, -32}, {62, -14}, 3);
  draw_screw(f, {-46, -23}, 6, 0.5);
  draw_screw(f, {46, -23}, 6, 1.2);
  f.box(Material::kBrass, {-12, -36}, {12, -8}, 4);
  draw_pallets(f, shape, arbor, pallets);
  f.label({-0.93 * kRadius, 0.6 * kRadius}, to_tr("entry pallet"),
          {-1.15 * kRadius, 0.5 * kRadius});
  f.label({0.86 * kRadius, 0.6 * kRadius}, to_tr("exit pallet"), {1.05 * kRadius, 0.45 * kRadius});
  f.label(wheel + polar(kRadius * 0.8, 4.1), to_tr("escape wheel"),
          wheel + Point{-1.12 * kRadius, 0.75 * kRadius});
  f.label({-6, 560}, to_tr("pendulum"), {-60, 552});
  f.label({-16, kNut_y + 6}, to_tr("rating nut"), {-70, kNut_y});
  f.label({-56, kBeatPlate_y + 14}, to_tr("beat scale"), {-96, kBeatPlate_y + 22});
}

}  // namespace sixty::models
