#include "sim/part/part.hpp"

namespace sixty::models {
namespace {

enum Reading : std::size_t { kCurrent, kVolts, kCharged };

class CapacitorPart final : public Part {
 public:
  explicit CapacitorPart(Builder& b)
      : element_{b.node("a"), b.node("b"), b.number("capacitance"), b.number("resistance")},
        number_(b.add(element_)) {}

  double read(std::size_t reading, const Reader& r) const override {
    const double volts = r.volts_between(element_.a, element_.b);
    const double charged = r.capacitor_v(number_);
    switch (reading) {
      case kCurrent:
        return (volts - charged) / element_.resistance_ohm;
      case kVolts:
        return volts;
      default:
        return charged;
    }
  }

 private:
  circuit::Capacitor element_;
  int number_;
};

class CapacitorType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "capacitor with series resistance";
    d.help = "Spark quench across a contact or a coil; smoothing.";
    d.quantity("capacitance", "F", 1e-10, 1, "capacitance");
    d.quantity("resistance", "ohm", 0.01, 1e6, "resistance in series with it, its own included");
    d.terminal("a", "one end");
    d.terminal("b", "other end");
    d.reading("current", "A", "current from a to b");
    d.reading("volts", "V", "voltage from a to b");
    d.reading("charged", "V", "voltage of the capacitance alone");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<CapacitorPart>(b);
  }
};

}  // namespace

const PartType& capacitor_part() {
  static const CapacitorType type;
  return type;
}

}  // namespace sixty::models
