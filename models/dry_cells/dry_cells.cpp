// Dry cells in series, each with its own charge. What flows is the network's affair; from time to
// time the bank reckons what each cell has given, and the network then feels the cells as they are.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/base/units.hpp"
#include "sim/part/cell_bank.hpp"
#include "sim/part/figure_pieces.hpp"
#include "sim/part/record.hpp"
#include "sim/part/source_params.hpp"

namespace sixty::models {
namespace {

constexpr double kMostCells = 40;
constexpr double kReferenceK = 293.15;
constexpr double kFreezingK = 273.15;
/// Of the capacity: a cell of which that much is gone is due to be changed.
constexpr double kRunDown = 0.9;

enum Command : std::uint16_t { kChangeAll, kChangeCell, kTurnCell };
enum Own : std::uint16_t { kReckon = 1 };
enum Reading : std::size_t { kResistance, kTaken, kWeakestCell, kWeakestVolts };
enum Stream : std::uint32_t { kCapacity, kOhms };

/// Values of one kind of cell, and of the bank.
struct Values {
  double capacity_as = 0;
  Curve emf, ohm;  ///< by share of the capacity taken. Units: V, ohm
  double unlike = 0;
  double cold_factor = 1;
  double recovery_v = 0;
  double rest_s = 1;
  double wakes_as = 1;
  double emf_step_v = 0, ohm_step = 0;
};

struct CellState {
  double capacity_as = 0;
  double ohm_factor = 1;
  double added_ohm = 0;
  double taken_as = 0;
  double rested = 0;  ///< 0 in steady work .. 1 after long rest
  std::int64_t turned = 0;
  std::uint64_t changes = 0;
};

struct BankState {
  FeltSource felt;
  double charge_as = 0;  ///< reckoned so far
  SimTime at = 0;
};

/// One that is not as the others at the start.
struct OddCell {
  double taken = 0;
  double added_ohm = 0;
  bool turned = false;
};

class DryCells final : public Part {
 public:
  explicit DryCells(Builder& b)
      : name_(b.name()),
        values_(values_of(b)),
        odd_(odd_cells_of(b)),
        plus_(b.node("plus")),
        minus_(b.node("minus")),
        bank_(b.state<BankState>()),
        surroundings_(b.taken<Surroundings>("surroundings")) {
    for (std::size_t k = 0; k < odd_.size(); ++k) cells_.push_back(b.state<CellState>());
    const auto cells = static_cast<double>(cells_.size());
    number_ = b.add(circuit::Source{plus_, minus_, cells * values_.emf.at(b.number("taken")),
                                    cells * values_.ohm.at(b.number("taken")), -1});
  }

  void start(Ctx& ctx) const override {
    ctx.state(bank_) = BankState{};
    for (std::size_t k = 0; k < cells_.size(); ++k) {
      CellState& cell = ctx.state(cells_[k]);
      cell = CellState{};
      draw_cell(k, cell, ctx);
      cell.taken_as = odd_[k].taken * cell.capacity_as;
      cell.added_ohm = odd_[k].added_ohm;
      cell.turned = odd_[k].turned ? 1 : 0;
    }
    make_felt(ctx);
    ctx.schedule(10 * kMinute, kReckon, Phase::kObserve);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    const BankState& bank = ctx.state(bank_);
    const SimTime since = ctx.now() - bank.at;
    const double charge_as = reckon(ctx);
    if (event.kind == kReckon) {
      const double mean_a = since > 0 ? std::fabs(charge_as) / to_seconds(since) : 0;
      ctx.schedule(ctx.now() + next_reckoning(values_.capacity_as, mean_a), kReckon,
                   Phase::kObserve);
    } else if (event.kind == kCommandBase + kChangeAll) {
      for (std::size_t k = 0; k < cells_.size(); ++k) change(k, ctx);
    } else if (event.kind == kCommandBase + kChangeCell) {
      change(cell_of(event.value, cells_.size()), ctx);
    } else if (event.kind == kCommandBase + kTurnCell) {
      turn(cell_of(event.value, cells_.size()), ctx);
    }
    make_felt(ctx);
  }

  void on_rebuilt(Ctx& ctx) const override {
    Event looks;
    looks.kind = kRebuilt;
    on_event(looks, ctx);
  }

  void draw(Figure& f, const Pose& at, const Reader&) const override {
    draw_cells(f, at, cells_.size());
  }

  double read(std::size_t reading, const Reader& r) const override {
    const BuiltSource source = source_now(r);
    if (reading < kSourceReadings) return source.read(r, reading);
    switch (reading - kSourceReadings) {
      case kResistance:
        return source.element.resistance_ohm;
      case kTaken:
        return mean_taken(r);
      case kWeakestCell:
        return static_cast<double>(weakest(r, source.current_a(r)) + 1);
      default: {
        const double current_a = source.current_a(r);
        return volts_of(r.state(cells_[weakest(r, current_a)]), current_a, temperature_k(r));
      }
    }
  }

  void report(Report& report, const Reader& r) const override {
    const BuiltSource source = source_now(r);
    source.report(report, r, name_, "supply", "supplies");
    report.say("Supply",
               fmt::format("{}: {}; {:.0f} % of its {} taken.", name_, source.sentence(r),
                           100 * mean_taken(r), format_quantity(values_.capacity_as, "C")));
    for (std::size_t k = 0; k < cells_.size(); ++k) report_cell(report, r, k, source);
    warn(report, r, source);
  }

 private:
  static Curve curve_of(const Builder& b, const std::string& what) {
    return Curve({{0.0, b.number(what + "_new")},
                  {0.5, b.number(what + "_half")},
                  {0.9, b.number(what + "_low")},
                  {1.0, b.number(what + "_end")},
                  {1.2, b.number(what + "_dead")}});
  }
  static Values values_of(const Builder& b) {
    return {b.number("capacity"),       curve_of(b, "emf"),      curve_of(b, "resistance"),
            b.number("unlike"),         b.number("cold_factor"), b.number("recovery"),
            b.number("rest_time"),      b.number("wakes_after"), b.number("emf_step"),
            b.number("resistance_step")};
  }
  static std::vector<OddCell> odd_cells_of(Builder& b) {
    std::vector<OddCell> cells(static_cast<std::size_t>(b.number("cells")));
    for (OddCell& cell : cells) cell.taken = b.number("taken");
    for (const auto& record : b.value("odd_cells").records) {
      const std::size_t k = cell_of(field_of(record, "cell").number, cells.size());
      if (k == cells.size()) {
        b.refuse("odd_cells", field_of(record, "cell"),
                 fmt::format("the bank has only {} cells", cells.size()),
                 "count them from 1 at the positive end");
        continue;
      }
      cells[k] = {field_of(record, "taken").number, field_of(record, "added").number,
                  field_of(record, "turned").number != 0};
    }
    return cells;
  }

  /// A fresh one, of its own making each time.
  void draw_cell(std::size_t k, CellState& cell, Ctx& ctx) const {
    const std::uint64_t number = cell.changes * static_cast<std::uint64_t>(kMostCells) + k;
    cell.capacity_as = values_.capacity_as * drawn_factor(ctx, kCapacity, number, values_.unlike);
    cell.ohm_factor = drawn_factor(ctx, kOhms, number, values_.unlike);
  }
  void change(std::size_t k, Ctx& ctx) const {
    if (k == cells_.size()) return;
    CellState& cell = ctx.state(cells_[k]);
    const std::uint64_t changes = cell.changes + 1;
    cell = CellState{};
    cell.changes = changes;
    draw_cell(k, cell, ctx);
  }
  void turn(std::size_t k, Ctx& ctx) const {
    if (k < cells_.size()) ctx.state(cells_[k]).turned ^= 1;
  }

  /// Books what has flowed since the last time. Units: A s, out of the bank.
  double reckon(Ctx& ctx) const {
    BankState& bank = ctx.state(bank_);
    const double total_as = ctx.reader().source_charge_as(number_);
    const double charge_as = total_as - bank.charge_as;
    const double seconds = to_seconds(ctx.now() - bank.at);
    bank.charge_as = total_as;
    bank.at = ctx.now();
    for (const auto& slot : cells_) book(ctx.state(slot), charge_as, seconds);
    return charge_as;
  }
  /// Rest is approached at its own pace and is lost by what the cell gives:
  /// d(rested)/dt = (1 - rested)/rest - rested x current/wakes, with the interval's mean current.
  /// What is driven into a dry cell it does not keep.
  void book(CellState& cell, double charge_as, double seconds) const {
    const double given_as = std::max(cell.turned != 0 ? -charge_as : charge_as, 0.0);
    cell.taken_as += given_as;
    const double resting = seconds / values_.rest_s;
    const double pace = resting + given_as / values_.wakes_as;
    if (pace <= 0) return;
    const double aim = resting / pace;
    cell.rested = aim + (cell.rested - aim) * det_exp(-std::min(pace, 700.0));
  }

  /// By its own poles. A cell recovers no more than it has lost.
  double emf_v(const CellState& cell) const {
    const double worked_v = values_.emf.at(cell.taken_as / cell.capacity_as);
    const double lost_v = values_.emf.at(0) - worked_v;
    return worked_v + std::min(values_.recovery_v, lost_v) * cell.rested;
  }
  double signed_emf_v(const CellState& cell) const {
    return cell.turned != 0 ? -emf_v(cell) : emf_v(cell);
  }
  double ohm(const CellState& cell, double temperature_k) const {
    const double colder = (kReferenceK - temperature_k) / (kReferenceK - kFreezingK);
    return values_.ohm.at(cell.taken_as / cell.capacity_as) * cell.ohm_factor *
               det_pow(values_.cold_factor, colder) +
           cell.added_ohm;
  }
  double volts_of(const CellState& cell, double current_a, double temperature_k) const {
    return signed_emf_v(cell) - ohm(cell, temperature_k) * current_a;
  }

  void make_felt(Ctx& ctx) const {
    double emf_v = 0;
    double ohm_sum = 0;
    const double warmth_k = temperature_k(ctx.reader());
    for (const auto& slot : cells_) {
      emf_v += signed_emf_v(ctx.state(slot));
      ohm_sum += ohm(ctx.state(slot), warmth_k);
    }
    FeltSource& felt = ctx.state(bank_).felt;
    if (!felt.follow(emf_v, ohm_sum, values_.emf_step_v, values_.ohm_step)) return;
    circuit::Source& source = ctx.change_source(number_);
    source.emf_v = felt.emf_v;
    source.resistance_ohm = felt.resistance_ohm;
  }

  double temperature_k(const Reader& r) const {
    return surroundings_.valid() ? r.state(surroundings_).temperature_k : kReferenceK;
  }
  BuiltSource source_now(const Reader& r) const {
    const FeltSource& felt = r.state(bank_).felt;
    return {{plus_, minus_, felt.emf_v, felt.resistance_ohm, -1}, number_};
  }
  double mean_taken(const Reader& r) const {
    double sum = 0;
    for (const auto& slot : cells_) sum += r.state(slot).taken_as / r.state(slot).capacity_as;
    return sum / static_cast<double>(cells_.size());
  }
  std::size_t weakest(const Reader& r, double current_a) const {
    const double warmth_k = temperature_k(r);
    std::size_t least = 0;
    for (std::size_t k = 1; k < cells_.size(); ++k) {
      if (volts_of(r.state(cells_[k]), current_a, warmth_k) <
          volts_of(r.state(cells_[least]), current_a, warmth_k)) {
        least = k;
      }
    }
    return least;
  }

  void report_cell(Report& report, const Reader& r, std::size_t k,
                   const BuiltSource& source) const {
    const CellState& cell = r.state(cells_[k]);
    const double warmth_k = temperature_k(r);
    report.append("cells")
        .text("id", name_)
        .count("cell", static_cast<std::int64_t>(k) + 1)
        .put("emf_v", signed_emf_v(cell), "V")
        .put("resistance_ohm", ohm(cell, warmth_k), "ohm")
        .put("loaded_v", volts_of(cell, r.source_most_a(source.number), warmth_k), "V")
        .put("left", std::max(1 - cell.taken_as / cell.capacity_as, 0.0))
        .nothing("gravity");
  }

  template <class Is>
  std::vector<std::size_t> cells_that(const Reader& r, const Is& is) const {
    std::vector<std::size_t> found;
    for (std::size_t k = 0; k < cells_.size(); ++k) {
      if (is(r.state(cells_[k]))) found.push_back(k);
    }
    return found;
  }
  void warn(Report& report, const Reader& r, const BuiltSource& source) const {
    const double warmth_k = temperature_k(r);
    const double most_a = r.source_most_a(source.number);
    const auto turned = cells_that(r, [](const CellState& c) { return c.turned != 0; });
    const auto low =
        cells_that(r, [](const CellState& c) { return c.taken_as >= kRunDown * c.capacity_as; });
    const auto driven = cells_that(
        r, [&](const CellState& c) { return c.turned == 0 && volts_of(c, most_a, warmth_k) < 0; });
    if (!turned.empty()) {
      report.warn(
          fmt::format("{}: {} stand{} the wrong way round; each takes its own volts and "
                      "those of another from the bank.",
                      name_, cells_named(turned), turned.size() == 1 ? "s" : ""));
    }
    if (!driven.empty()) {
      report.warn(fmt::format("{}: under load the others drive {} backwards; change the set.",
                              name_, cells_named(driven)));
    }
    if (low.empty()) return;
    report.warn(
        fmt::format("{}: {} of {} cells are run down (90 % or more is taken); change the "
                    "whole set and date it.",
                    name_, low.size(), cells_.size()));
  }

  std::string name_;
  Values values_;
  std::vector<OddCell> odd_;
  circuit::Node plus_;
  circuit::Node minus_;
  StateSlot<BankState> bank_;
  StateSlot<Surroundings> surroundings_;
  std::vector<StateSlot<CellState>> cells_;
  int number_ = -1;
};

void declare_curve(Declaration& d, const std::string& what, const char* unit, double most,
                   const std::vector<double>& values) {
  const char* const at[][2] = {{"_new", "a new cell's"},
                               {"_half", "with half of the charge taken"},
                               {"_low", "with 90 % taken"},
                               {"_end", "with all taken"},
                               {"_dead", "with 120 % taken, driven by the other cells"}};
  const bool ohms = what == "resistance";
  for (std::size_t k = 0; k < values.size(); ++k) {
    d.quantity(
        what + at[k][0], unit, values[k], ohms ? 1e-4 : 0, most,
        (ohms ? "internal resistance, " : "electromotive force at work, ") + std::string(at[k][1]));
  }
}

ParamDecl turned_field() {
  ParamDecl field = count_field("turned", 0, 1, "it stands the wrong way round", false);
  field.kind = ParamKind::kFlag;
  return field;
}

class DryCellsType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "bank of dry cells";
    d.stand = {Stand::Where::kCorner, 0, 0, "", ""};
    d.help = "Dry cells in series, each of which runs down, rests and may be changed by itself.";
    d.count("cells", 16, 1, kMostCells, "cells in series");
    d.quantity("capacity", "C", 360, 3.6e6, "charge that a cell gives until it is at its end");
    declare_curve(d, "emf", "V", 3, {1.5, 1.375, 1.1875, 1.0, 0.0});
    declare_curve(d, "resistance", "ohm", 100, {0.1, 0.2, 0.375, 0.625, 5.0});
    declare_habits(d);
    d.records(
        "odd_cells",
        {count_field("cell", 1, kMostCells, "which, from 1 at the positive end"),
         quantity_field("taken", "1", 0, 2, "share of its charge taken at the start", false),
         quantity_field("added", "ohm", 0, 100, "resistance it has more than it ought to", false),
         turned_field()},
        "cells that are not as the others at the start");
    d.terminal("plus", "positive terminal");
    d.terminal("minus", "negative terminal");
    d.takes<Surroundings>("surroundings", "where it stands: cold cells have more resistance", true);
    d.command("change_all", "puts a new set in");
    d.command("change_cell", "puts one new cell in, the right way round",
              cell_argument(kMostCells));
    d.command("turn_cell", "puts one cell the other way round", cell_argument(kMostCells));
    declare_source_readings(d);
    d.reading("resistance", "ohm", "internal resistance");
    d.reading("taken", "1", "share of the charge that is taken, mean of its cells").told =
        Told::kShare;
    d.reading("weakest_cell", "cell", "which cell has the least volts now");
    d.reading("weakest_volts", "V", "volts of that cell; negative if the others drive it");
    d.event(kReckon, "reckons", "what its cells have given is booked");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<DryCells>(b);
  }

 private:
  static void declare_habits(Declaration& d) {
    d.quantity("taken", "1", 0, 0, 1.2, "share of the charge taken at the start");
    d.quantity("unlike", "1", 0.03, 0, 0.5,
               "share by which cells of a set differ, in capacity and in resistance");
    d.quantity("cold_factor", "1", 1.5, 1, 5, "resistance at 0 degC over that at 20 degC");
    d.quantity("recovery", "V", 0.5 / 16, 0, 0.5, "what a cell recovers by long rest");
    d.quantity("rest_time", "s", 28800, 60, 1e7, "time in which a cell comes by most of that");
    d.quantity("wakes_after", "C", 72, 1, 1e5, "charge by which it loses most of it again");
    d.quantity("emf_step", "V", 0.1, 1e-3, 1,
               "steps in which the bank's volts are felt: finer ones cost time",
               "chosen to be less than any measurement tells, and as coarse as that allows");
    d.quantity("resistance_step", "1", 0.05, 1e-3, 0.5,
               "the same for its resistance, as a share of it",
               "chosen to be less than any measurement tells, and as coarse as that allows");
  }
};

}  // namespace

const PartType& dry_cells_part() {
  static const DryCellsType type;
  return type;
}

}  // namespace sixty::models
