#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "sim/base/units.hpp"
#include "sim/part/part.hpp"

namespace sixty::models {
namespace {

enum Reading : std::size_t { kVolts, kCurrent, kEmf, kCharge };

class Supply final : public Part {
 public:
  explicit Supply(Builder& b)
      : name_(b.name()),
        source_{b.node("plus"), b.node("minus"), b.number("emf"), b.number("resistance"), -1},
        number_(b.add(source_)) {}

  double read(std::size_t reading, const Reader& r) const override {
    switch (reading) {
      case kVolts:
        return r.volts_between(source_.plus, source_.minus);
      case kCurrent:
        return current_a(r);
      case kEmf:
        return source_.emf_v;
      default:
        return r.source_charge_as(number_);
    }
  }

  void report(Report& report, const Reader& r) const override {
    const auto& sections = report.sections();
    const bool first = std::none_of(sections.begin(), sections.end(),
                                    [](const auto& s) { return s.name == "supply"; });
    if (first) put(report.object("supply"), r);
    put(report.append("supplies").text("id", name_), r);
    report.say("Supply",
               fmt::format("{}: {} behind {}; least {} at the terminals, most {}{}, {} used.",
                           name_, format_quantity(source_.emf_v, "V"),
                           format_quantity(source_.resistance_ohm, "ohm"),
                           format_quantity(least_v(r), "V"),
                           format_quantity(std::fabs(r.source_most_a(number_)), "A"),
                           r.source_most_a(number_) < 0 ? " driven back into it" : "",
                           charge_text(charge_ah(r))));
  }

 private:
  double current_a(const Reader& r) const {
    return (source_.emf_v - r.volts_between(source_.plus, source_.minus)) / source_.resistance_ohm;
  }
  // Before any time has passed nothing has been seen at the terminals but what is there now.
  double least_v(const Reader& r) const {
    const double least = r.source_least_v(number_);
    return std::isfinite(least) ? least : r.volts_between(source_.plus, source_.minus);
  }
  static std::string charge_text(double ah) {
    return ah < 0.001 ? fmt::format("{:.3g} mAh", ah * 1000) : fmt::format("{:.3f} Ah", ah);
  }
  double charge_ah(const Reader& r) const { return r.source_charge_as(number_) / 3600; }
  void put(Row& row, const Reader& r) const {
    row.put("min_v", least_v(r), "V")
        .put("max_a", r.source_most_a(number_), "A")
        .put("charge_ah", charge_ah(r), "Ah");
  }

  std::string name_;
  circuit::Source source_;
  int number_;
};

class SupplyType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "supply";
    d.help = "Electromotive force behind an internal resistance; all that pulls at once sags it.";
    d.quantity("emf", "V", 0.1, 100, "voltage when nothing is drawn");
    d.quantity("resistance", "ohm", 1e-3, 1e4, "internal resistance with the leads");
    d.terminal("plus", "positive terminal");
    d.terminal("minus", "negative terminal");
    d.reading("volts", "V", "voltage at the terminals");
    d.reading("current", "A", "current that it delivers");
    d.reading("emf", "V", "electromotive force");
    d.reading("charge", "C", "charge delivered since the start");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<Supply>(b);
  }
};

}  // namespace

const PartType& supply_part() {
  static const SupplyType type;
  return type;
}

}  // namespace sixty::models
