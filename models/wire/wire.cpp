#include <algorithm>

#include "sim/circuit/copper.hpp"
#include "sim/part/air.hpp"

namespace sixty::models {
namespace {

constexpr int kThickest = -3;  // 4/0
constexpr int kThinnest = 40;
constexpr double kLeastLeakage_ohm = 1;
constexpr double kSoundJoint_ohm = 5e-3;  // common practice, no source

enum Command : std::uint16_t { kTighten };
enum Reading : std::size_t { kResistance, kCurrent, kDrop, kPower, kLeak };

/// "by area", then the gauges as the trade writes them, thickest first.
std::vector<std::string> gauges() {
  std::vector<std::string> names = {"by area", "0000", "000", "00"};
  for (int n = 0; n <= kThinnest; ++n) names.push_back(std::to_string(n));
  return names;
}

/// Range: choice >= 1, an index into gauges().
int gauge_of(double choice) { return static_cast<int>(choice) - 1 + kThickest; }

double area_m2(Builder& b) {
  const double by_area = b.number("cross_section");
  const double gauge = b.number("awg");
  if ((by_area > 0) == (gauge > 0)) {
    b.refuse(
        by_area > 0 ? "awg" : "cross_section",
        by_area > 0 ? "the wire's thickness is given twice" : "the wire's thickness is missing",
        "give either cross_section, for example \"1 mm2\", or awg, for example 18");
    return 1e-6;
  }
  return by_area > 0 ? by_area : circuit::awg_area_m2(gauge_of(gauge));
}

/// All conductors, without their joints, at 20 degC.
double cold_copper_ohm(Builder& b) {
  return b.number("conductors") *
         circuit::copper_ohm(b.number("length"), area_m2(b), circuit::kCopperReferenceK);
}

double leakage_ohm(Builder& b) {
  const double ohm = b.number("leakage");
  if (ohm == 0 || ohm >= kLeastLeakage_ohm) return ohm;
  b.refuse("leakage", "this is a dead short rather than a leak",
           "give 1 ohm or more; 0 ohm stands for sound insulation");
  return 0;
}

struct WireState {
  double copper_ohm = 0;
  double joint_ohm = 0;  ///< of each
};

/// The run as one resistor; with a leak as two halves, the leak between them.
class Wire final : public Part {
 public:
  explicit Wire(Builder& b)
      : a_(b.node("a")),
        b_(b.node("b")),
        earth_(b.node("earth")),
        leakage_ohm_(leakage_ohm(b)),
        middle_(leakage_ohm_ > 0 ? b.inner_node() : b_),
        cold_ohm_(cold_copper_ohm(b)),
        joints_(b.number("joints")),
        bad_joint_ohm_(b.number("bad_joint")),
        first_{cold_ohm_ * circuit::copper_factor(b.number("temperature")),
               b.number("joint_resistance")},
        state_(b.state<WireState>()),
        copper_(b, cold_ohm_) {
    near_ = b.add(circuit::Resistor{a_, middle_, near_ohm(first_)});
    if (leakage_ohm_ == 0) return;
    far_ = b.add(circuit::Resistor{middle_, b_, far_ohm(first_)});
    b.add(circuit::Resistor{middle_, earth_, leakage_ohm_});
  }

  void start(Ctx& ctx) const override { ctx.state(state_) = first_; }

  // Whoever tightens makes no joint worse.
  void on_event(const Event& event, Ctx& ctx) const override {
    WireState s = ctx.state(state_);
    if (event.kind == kCommandBase + kTighten) s.joint_ohm = std::min(s.joint_ohm, kSoundJoint_ohm);
    if (is_link_change(event) && copper_.in_air()) s.copper_ohm = copper_.ohm(ctx);
    if (ohm(s) == ohm(ctx.state(state_))) return;
    make_felt(s, ctx);
  }

  void on_rebuilt(Ctx& ctx) const override { make_felt(ctx.state(state_), ctx); }

  double read(std::size_t reading, const Reader& r) const override {
    const double near_v = r.volts_between(a_, middle_);
    const double far_v = r.volts_between(middle_, b_);
    const WireState& s = r.state(state_);
    switch (reading) {
      case kResistance:
        return ohm(s);
      case kCurrent:
        return near_v / near_ohm(s);
      case kDrop:
        return near_v + far_v;
      case kPower:
        return (near_v * near_v + far_v * far_v) / near_ohm(s);
      default:
        return leakage_ohm_ > 0 ? r.volts_between(middle_, earth_) / leakage_ohm_ : 0;
    }
  }

 private:
  void make_felt(const WireState& s, Ctx& ctx) const {
    ctx.state(state_) = s;
    ctx.change_resistor(near_).resistance_ohm = near_ohm(s);
    if (far_ >= 0) ctx.change_resistor(far_).resistance_ohm = far_ohm(s);
  }

  double ohm(const WireState& s) const {
    return s.copper_ohm + joints_ * s.joint_ohm + bad_joint_ohm_;
  }
  double near_ohm(const WireState& s) const { return leakage_ohm_ > 0 ? ohm(s) / 2 : ohm(s); }
  double far_ohm(const WireState& s) const { return ohm(s) - near_ohm(s); }

  circuit::Node a_, b_, earth_;
  double leakage_ohm_;
  circuit::Node middle_;  ///< the far end where nothing leaks
  double cold_ohm_, joints_;
  double bad_joint_ohm_;  ///< of one of them, beyond what is told of all
  WireState first_;
  StateSlot<WireState> state_;
  CopperInAir copper_;
  int near_ = -1, far_ = -1;
};

class WireType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "run of copper wire";
    d.help = "Resistance of a wire from gauge, length, temperature and joints, and what leaks out.";
    d.quantity("length", "m", 0.01, 1e4, "length of one conductor");
    d.quantity("cross_section", "m2", 0.0, 0.0, 120e-6, "cross-section of one conductor",
               "none unless given");
    d.choice("awg", gauges(), "American wire gauge in place of the cross-section");
    d.count("conductors", 1, 1, 2, "conductors in a row: 2 for there and back in one part");
    d.count("joints", 0, 0, 1000, "joints on the way, of all conductors together");
    d.quantity("joint_resistance", "ohm", kSoundJoint_ohm, 0.0, 1e6, "resistance of each joint");
    d.quantity("bad_joint", "ohm", 0.0, 0.0, 1e9, "what one place adds: a bad joint, a break",
               "none unless given");
    d.quantity("leakage", "ohm", 0.0, 0.0, 1e9,
               "insulation resistance of the whole run against `earth`; 0 where nothing leaks",
               "none unless given");
    d.quantity("temperature", "K", circuit::kCopperReferenceK, 233.15, 378.15,
               "temperature of the copper");
    declare_air(d);
    d.terminal("a", "one end");
    d.terminal("b", "other end");
    d.command("tighten", "tightens all joints: they are as good as sound ones again");
    d.terminal("earth", "what the run leaks to: earth, or the return; left open without a leak");
    d.reading("resistance", "ohm", "resistance of the run");
    d.reading("current", "A", "current in at a", Lane::kCurve);
    d.reading("drop", "V", "voltage from a to b");
    d.reading("power", "W", "heat in the run");
    d.reading("leak", "A", "current through the insulation to earth");
  }
  std::unique_ptr<const Part> make(Builder& b) const override { return std::make_unique<Wire>(b); }
};

}  // namespace

const PartType& wire_part() {
  static const WireType type;
  return type;
}

}  // namespace sixty::models
