#include "sim/circuit/copper.hpp"
#include "sim/part/part.hpp"

namespace sixty::models {
namespace {

constexpr int kThickest = -3;  // 4/0
constexpr int kThinnest = 40;

enum Reading : std::size_t { kResistance, kCurrent, kDrop, kPower };

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

double wire_ohm(Builder& b) {
  const double metal = circuit::copper_ohm(b.number("length"), area_m2(b), b.number("temperature"));
  return b.number("conductors") * metal + b.number("joints");
}

class Wire final : public Part {
 public:
  explicit Wire(Builder& b) : a_(b.node("a")), b_(b.node("b")), ohm_(wire_ohm(b)) {
    b.add(circuit::Resistor{a_, b_, ohm_});
  }

  double read(std::size_t reading, const Reader& r) const override {
    const double volts = r.volts_between(a_, b_);
    switch (reading) {
      case kResistance:
        return ohm_;
      case kCurrent:
        return volts / ohm_;
      case kDrop:
        return volts;
      default:
        return volts * volts / ohm_;
    }
  }

 private:
  circuit::Node a_;
  circuit::Node b_;
  double ohm_;
};

class WireType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "run of copper wire";
    d.help = "Resistance of a wire from gauge, length, temperature and joints.";
    d.quantity("length", "m", 0.01, 1e4, "length of one conductor");
    d.quantity("cross_section", "m2", 0.0, 0.0, 120e-6, "cross-section of one conductor",
               "none unless given");
    d.choice("awg", gauges(), "American wire gauge in place of the cross-section");
    d.count("conductors", 1, 1, 2, "conductors in a row: 2 for there and back in one part");
    d.quantity("joints", "ohm", 0.0, 0.0, 1e6, "resistance of all joints on the way together");
    d.quantity("temperature", "K", circuit::kCopperReferenceK, 233.15, 378.15,
               "temperature of the copper");
    d.terminal("a", "one end");
    d.terminal("b", "other end");
    d.reading("resistance", "ohm", "resistance of the run");
    d.reading("current", "A", "current from a to b");
    d.reading("drop", "V", "voltage from a to b");
    d.reading("power", "W", "heat in the run");
  }
  std::unique_ptr<const Part> make(Builder& b) const override { return std::make_unique<Wire>(b); }
};

}  // namespace

const PartType& wire_part() {
  static const WireType type;
  return type;
}

}  // namespace sixty::models
