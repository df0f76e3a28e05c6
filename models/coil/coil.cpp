#include <fmt/format.h>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/part/coil_params.hpp"

namespace sixty::models {
namespace {

using circuit::What;

enum Reading : std::size_t { kPullIn = kCoilReadings, kDropOut, kStrokes };

struct CoilPartState {
  std::int64_t strokes = 0;
  std::int64_t seated = 0;  ///< it has not been back at its open stop since the last stroke
  DrivesInVain held;
};

/// What the person at the bench gave: a fixed inductance or a magnet.
circuit::Coil bench_coil(Builder& b) {
  circuit::Coil c = coil_of(b, b.node("a"), b.node("b"));
  const double fixed_h = b.number("inductance");
  const bool magnet =
      c.magnet.turns > 0 && c.magnet.pole_area_m2 > 0 && c.magnet.residual_gap_m > 0;
  if ((fixed_h > 0) == (c.magnet.turns > 0)) {
    b.refuse("inductance",
             fixed_h > 0 ? "both a fixed inductance and a magnet" : "neither inductance nor magnet",
             "give inductance, or turns, pole_area and residual_gap");
  } else if (fixed_h <= 0 && !magnet) {
    b.refuse("turns", "the magnet is not complete", "give turns, pole_area and residual_gap");
  } else if (fixed_h > 0 && c.armature.present) {
    b.refuse("stroke", "a fixed inductance pulls no armature",
             "give turns, pole_area and residual_gap in place of inductance");
  }
  if (!magnet) {
    c.magnet = {};
    c.armature = {};
    c.magnet.inductance_h = fixed_h > 0 ? fixed_h : 1;
  }
  return c;
}

class CoilPart final : public Part {
 public:
  explicit CoilPart(Builder& b)
      : name_(b.name()), state_(b.state<CoilPartState>()), coil_(add_coil(b, bench_coil(b))) {}

  void on_event(const Event& event, Ctx& ctx) const override {
    if (is_link_change(event)) coil_.follow(ctx);
  }

  void on_located(const circuit::Located& happened, Ctx& ctx) const override {
    CoilPartState& s = ctx.state(state_);
    if (happened.what == What::kReturns) s.seated = 0;
    if (happened.what == What::kSeats) {
      s.strokes += 1 - s.seated;
      s.seated = 1;
    }
    if (happened.what == What::kStarts) s.held.started(ctx.now());
    if (happened.what != What::kHeld) return;
    s.held.held(happened, ctx.now());
    explain_held(happened, ctx);
  }

  double read(std::size_t reading, const Reader& r) const override {
    switch (reading) {
      case kPullIn:
        return coil_.has_armature() ? pull_in_v(r.coil(coil_.number)) : 0;
      case kDropOut:
        return coil_.has_armature() ? drop_out_v(r.coil(coil_.number)) : 0;
      case kStrokes:
        return static_cast<double>(r.state(state_).strokes);
      default:
        return read_coil(r, coil_, reading);
    }
  }

  void report(Report& report, const Reader& r) const override {
    const CoilPartState& s = r.state(state_);
    Row& row = report.append("coils").text("id", name_);
    if (!coil_.has_armature()) {
      row.nothing("strokes").nothing("held").nothing("pull_in_v").nothing("drop_out_v");
      return;
    }
    const double pulls_in_v = pull_in_v(r.coil(coil_.number));
    const double drops_out_v = drop_out_v(r.coil(coil_.number));
    row.count("strokes", s.strokes).count("held", s.held.count());
    row.put("pull_in_v", pulls_in_v, "V").put("drop_out_v", drops_out_v, "V");
    report.say("Coils",
               fmt::format("{}: pulls in at {}, drops out at {}; {}, {}.", name_,
                           format_quantity(pulls_in_v, "V"), format_quantity(drops_out_v, "V"),
                           counted(s.strokes, "full stroke"), happened("held", s.held.count())));
  }

  // Pitch and loudness: common practice, no source.
  std::vector<Voice> voices() const override {
    return {{Voice::Kind::kClick, located_kind(What::kSeats), 1500, 0.04, 0.3, 0.5},
            {Voice::Kind::kClick, located_kind(What::kReturns), 1100, 0.04, 0.2, 0.5}};
  }

 private:
  std::string name_;
  StateSlot<CoilPartState> state_;
  BuiltCoil coil_;
};

class CoilType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "coil on the bench";
    d.help = "Winding with fixed inductance, or magnet with or without armature, to be tried out.";
    declare_winding(d, false);
    declare_armature(d, false);
    d.quantity("inductance", "H", 0.0, 0.0, 1e3, "fixed inductance, in place of a magnet",
               "none unless given");
    d.terminal("a", "one end of the winding");
    d.terminal("b", "other end of the winding");
    declare_coil_readings(d);
    d.reading("pull_in_volts", "V", "slowly raised voltage at the coil that pulls it in");
    d.reading("drop_out_volts", "V", "slowly lowered voltage at the coil that lets it go");
    d.sum("strokes", "1", "full strokes since the start");
    declare_armature_events(d);
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<CoilPart>(b);
  }
};

}  // namespace

const PartType& coil_part() {
  static const CoilType type;
  return type;
}

}  // namespace sixty::models
