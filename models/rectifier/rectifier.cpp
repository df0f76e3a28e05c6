#include <fmt/format.h>

#include <cmath>

#include "sim/base/units.hpp"
#include "sim/part/figure_pieces.hpp"
#include "sim/part/source_params.hpp"

namespace sixty::models {
namespace {

enum Command : std::uint16_t { kSetTap };
enum Reading : std::size_t { kVolts, kCurrent, kCharge, kMains };

constexpr double kLeastTap = 0.5;
constexpr double kMostTap = 1.5;

struct RectifierState {
  double tap = 1;
  double peak_v = 0;  ///< as the network has it
};

class Rectifier final : public Part {
 public:
  explicit Rectifier(Builder& b)
      : name_(b.name()),
        rms_v_(b.number("secondary")),
        rated_mains_v_(b.number("rated_mains")),
        tap_(b.number("tap")),
        plus_(b.node("plus")),
        minus_(b.node("minus")),
        air_(b.taken<Surroundings>("surroundings")),
        state_(b.state<RectifierState>()) {
    b.mains("frequency");
    circuit::Source winding;
    winding.plus = b.inner_node();
    winding.minus = minus_;
    winding.emf_v = peak_v(tap_, rated_mains_v_);
    winding.resistance_ohm = b.number("resistance");
    winding.rectified = true;
    winding.watched = plus_;
    circuit::Node out = plus_;
    if (const double joint_ohm = b.number("joint"); joint_ohm > 0) {
      out = b.inner_node();
      b.add(circuit::Resistor{out, plus_, joint_ohm});
    }
    winding_ = {winding, b.add(winding)};
    b.add(circuit::Diode{winding.plus, out, kBridgeOhm, b.number("bridge_drop")});
    b.add(circuit::Resistor{winding.plus, out, kLeakOhm});
    const double smoothing_f = b.number("smoothing");
    if (smoothing_f > 0) {
      b.add(circuit::Capacitor{out, minus_, smoothing_f, b.number("smoothing_resistance")});
    }
    const double bleeder_ohm = b.number("bleeder");
    if (bleeder_ohm > 0) b.add(circuit::Resistor{out, minus_, bleeder_ohm});
  }

  void start(Ctx& ctx) const override {
    RectifierState& s = ctx.state(state_);
    s.tap = tap_;
    s.peak_v = peak_v(tap_, rated_mains_v_);
    follow(ctx);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    if (event.kind == kCommandBase + kSetTap) ctx.state(state_).tap = event.value;
    follow(ctx);
  }

  void on_rebuilt(Ctx& ctx) const override { follow(ctx); }

  void draw(Figure& f, const Pose& at, const Reader&) const override { draw_transformer(f, at); }

  double read(std::size_t reading, const Reader& r) const override {
    switch (reading) {
      case kVolts:
        return r.volts_between(plus_, minus_);
      case kCurrent:
        return winding_.current_a(r);
      case kCharge:
        return r.source_charge_as(winding_.number);
      default:
        return air_.valid() ? r.state(air_).mains_v : rated_mains_v_;
    }
  }

  void report(Report& report, const Reader& r) const override {
    winding_.report(report, r, name_, "supply", "supplies");
    report.say(
        "Supply",
        fmt::format("{}: {} behind a bridge; least {} at the terminals, most {}, {:.3f} Ah used.",
                    name_, format_quantity(rms_v_, "V"), format_quantity(winding_.least_v(r), "V"),
                    format_quantity(r.source_most_a(winding_.number), "A"),
                    r.source_charge_as(winding_.number) / 3600));
  }

 private:
  /// What the diodes' own slope adds to the winding's resistance; small, so that the drop is the
  /// one that is set.
  static constexpr double kBridgeOhm = 0.01;
  /// What a bridge lets back. Common practice, no source.
  static constexpr double kLeakOhm = 1e6;

  double peak_v(double tap, double mains_v) const {
    return std::sqrt(2.0) * rms_v_ * tap * mains_v / rated_mains_v_;
  }

  void follow(Ctx& ctx) const {
    RectifierState& s = ctx.state(state_);
    const double mains_v = air_.valid() ? ctx.state(air_).mains_v : rated_mains_v_;
    const double peak = peak_v(s.tap, mains_v);
    if (peak == s.peak_v) return;
    s.peak_v = peak;
    ctx.change_source(winding_.number).emf_v = peak;
  }

  std::string name_;
  double rms_v_;
  double rated_mains_v_;
  double tap_;
  circuit::Node plus_;
  circuit::Node minus_;
  StateSlot<Surroundings> air_;
  StateSlot<RectifierState> state_;
  BuiltSource winding_;  // as it was built
};

class RectifierType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "transformer with rectifier";
    d.stand = {Stand::Where::kCorner, 0, 0, "", ""};
    d.help = "Mains stepped down and rectified by a bridge, with or without a smoothing capacitor.";
    d.quantity("secondary", "V", 1, 100,
               "rms of the winding when nothing is drawn, at rated mains");
    d.quantity("resistance", "ohm", 1e-3, 1e3, "of the winding, with what the primary adds");
    d.quantity("bridge_drop", "V", 1.8, 0, 100, "drop of the two diodes in the way");
    d.quantity("smoothing", "F", 0, 0, 1, "smoothing capacitor; 0 for none");
    d.quantity("smoothing_resistance", "ohm", 0.05, 1e-3, 100, "in series with it");
    d.quantity("joint", "ohm", 0.0, 0.0, 1e9, "added at the positive terminal: a bad joint",
               "none unless given");
    d.quantity("bleeder", "ohm", 0, 0, 1e6, "across the terminals; 0 for none");
    d.quantity("tap", "1", 1, kLeastTap, kMostTap, "of the winding, against its rated voltage");
    d.quantity("rated_mains", "V", 230, 50, 500, "for which the winding is meant");
    d.quantity("frequency", "Hz", 50, 10, 100, "of the mains");
    d.terminal("plus", "positive terminal");
    d.terminal("minus", "negative terminal");
    d.takes<Surroundings>("surroundings", "mains that feed it", true);
    d.command("set_tap", "another tap of the winding",
              quantity_field("tap", "1", kLeastTap, kMostTap, "against its rated voltage"))
        .sets = "tap";
    d.reading("volts", "V", "voltage at the terminals", Lane::kCurve);
    d.reading("current", "A", "current that the winding delivers");
    d.sum("charge", "C", "charge delivered since the start");
    d.reading("mains", "V", "mains that feed it, rms");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<Rectifier>(b);
  }
};

}  // namespace

const PartType& rectifier_part() {
  static const RectifierType type;
  return type;
}

}  // namespace sixty::models
