#include "sim/part/part.hpp"

namespace sixty::models {
namespace {

enum Reading : std::size_t { kCurrent, kVolts, kPower };

class ResistorPart final : public Part {
 public:
  explicit ResistorPart(Builder& b) : element_{b.node("a"), b.node("b"), b.number("resistance")} {
    b.add(element_);
  }

  double read(std::size_t reading, const Reader& r) const override {
    const double volts = r.volts_between(element_.a, element_.b);
    switch (reading) {
      case kCurrent:
        return volts / element_.resistance_ohm;
      case kVolts:
        return volts;
      default:
        return volts * volts / element_.resistance_ohm;
    }
  }

 private:
  circuit::Resistor element_;
};

class ResistorType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "resistor";
    d.help = "Ballast of a loop, resistor across a coil, joint, leak to earth.";
    d.quantity("resistance", "ohm", 1e-3, 1e9, "resistance");
    d.terminal("a", "one end");
    d.terminal("b", "other end");
    d.reading("current", "A", "current from a to b");
    d.reading("volts", "V", "voltage from a to b");
    d.reading("power", "W", "heat in it");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<ResistorPart>(b);
  }
};

}  // namespace

const PartType& resistor_part() {
  static const ResistorType type;
  return type;
}

}  // namespace sixty::models
