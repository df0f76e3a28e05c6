#include "sim/part/figure_pieces.hpp"
#include "sim/part/source_params.hpp"

namespace sixty::models {
namespace {

class Supply final : public Part {
 public:
  explicit Supply(Builder& b)
      : name_(b.name()),
        source_{{b.node("plus"), b.node("minus"), b.number("emf"), b.number("resistance"), -1},
                -1} {
    source_.number = b.add(source_.element);
  }

  void draw(Figure& f, const Pose& at, const Reader&) const override { draw_cells(f, at, 8); }

  double read(std::size_t reading, const Reader& r) const override {
    return source_.read(r, reading);
  }

  void report(Report& report, const Reader& r) const override {
    source_.report(report, r, name_, "supply", "supplies");
    report.say("Supply", name_ + ": " + source_.sentence(r) + ".");
  }

 private:
  std::string name_;
  BuiltSource source_;
};

class SupplyType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "supply";
    d.stand = {Stand::Where::kCorner, 0, 0, "", ""};
    d.help = "Electromotive force behind an internal resistance; all that pulls at once sags it.";
    d.quantity("emf", "V", 0.1, 100, "voltage when nothing is drawn");
    d.quantity("resistance", "ohm", 1e-3, 1e4, "internal resistance with the leads");
    d.terminal("plus", "positive terminal");
    d.terminal("minus", "negative terminal");
    declare_source_readings(d);
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
