#include "sim/part/part.hpp"

namespace sixty::models {
namespace {

enum Reading : std::size_t { kCurrent, kVolts };

class DiodePart final : public Part {
 public:
  explicit DiodePart(Builder& b)
      : element_{b.node("anode"), b.node("cathode"), b.number("resistance"),
                 b.number("forward_drop")},
        number_(b.add(element_)) {}

  double read(std::size_t reading, const Reader& r) const override {
    const double volts = r.volts_between(element_.anode, element_.cathode);
    if (reading == kVolts) return volts;
    // Whether it conducts is a state of the network: the volts alone leave it open, since where no
    // conducting way joins the terminals they are not known, and about nothing they tremble.
    if (!r.diode_conducts(number_)) return 0;
    return (volts - element_.forward_v) / element_.resistance_ohm;
  }

 private:
  circuit::Diode element_;
  int number_;
};

class DiodeType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "diode with series resistance";
    d.help = "Conducts one way, with a constant drop and a resistance; blocks the other way.";
    d.quantity("resistance", "ohm", 0.5, 1e-3, 1e6, "resistance in series, its own included");
    d.quantity("forward_drop", "V", 0.7, 0.0, 100, "drop while it conducts");
    d.terminal("anode", "where the current goes in");
    d.terminal("cathode", "where the current comes out");
    d.reading("current", "A", "current from anode to cathode");
    d.reading("volts", "V", "voltage from anode to cathode");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<DiodePart>(b);
  }
};

}  // namespace

const PartType& diode_part() {
  static const DiodeType type;
  return type;
}

}  // namespace sixty::models
