// Lead-acid cells with a charger beside them. The charger is slow: it holds a current from one
// reckoning to the next, so that battery and charger together are again one electromotive force
// behind the battery's resistance, and the network stays linear.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "models/lead_acid/lead_cell.hpp"
#include "sim/base/units.hpp"
#include "sim/part/figure_pieces.hpp"
#include "sim/part/record.hpp"
#include "sim/part/source_params.hpp"

namespace sixty::models {
namespace {

constexpr double kMostCells = 24;

enum Command : std::uint16_t { kChargerOn, kChargerOff, kTopUp, kChangeCell };
enum Own : std::uint16_t { kReckon = 1 };
enum Reading : std::size_t {
  kResistance,
  kLeft,
  kChargerCurrent,
  kPutIn,
  kGravity,
  kWaterLost,
  kWeakestCell
};
enum Stream : std::uint32_t { kCapacity, kOhms };

struct Charger {
  double float_v = 0;
  double limit_a = 0;
  double mains_share = 0;  ///< of a change of the mains that its voltage follows
  double rated_mains_v = 230;
};

struct BatteryState {
  FeltSource felt;
  double delivered_as = 0;  ///< reckoned so far
  double put_in_as = 0;     ///< by the charger
  double charger_a = 0;     ///< until the next reckoning
  double drawn_a = 0;       ///< by the installation, mean of late
  SimTime at = 0;
  std::int64_t charger_on = 0;
  EventHandle next;
};

struct OddCell {
  double charge = 1;
  double added_ohm = 0;
  bool shorted = false;
};

class LeadAcid final : public Part {
 public:
  explicit LeadAcid(Builder& b)
      : name_(b.name()),
        kind_(kind_of(b)),
        charger_{b.number("float_voltage"), b.number("charger_limit"), b.number("mains_share"),
                 b.number("rated_mains")},
        leads_ohm_(b.number("leads")),
        unlike_(b.number("unlike")),
        emf_step_v_(b.number("emf_step")),
        starts_on_(b.flag("charger")),
        odd_(odd_cells_of(b)),
        plus_(b.node("plus")),
        minus_(b.node("minus")),
        state_(b.state<BatteryState>()),
        surroundings_(b.taken<Surroundings>("surroundings")) {
    for (std::size_t k = 0; k < odd_.size(); ++k) cells_.push_back(b.state<LeadCell>());
    const auto cells = static_cast<double>(cells_.size());
    number_ = b.add(
        circuit::Source{plus_, minus_, cells * kind_.full_v, cells * kind_.ohm + leads_ohm_, -1});
  }

  void start(Ctx& ctx) const override {
    BatteryState& s = ctx.state(state_) = BatteryState{};
    s.charger_on = starts_on_ ? 1 : 0;
    for (std::size_t k = 0; k < cells_.size(); ++k) {
      LeadCell& cell = ctx.state(cells_[k]);
      draw_cell(k, cell, ctx);
      cell.charge = odd_[k].charge;
      cell.added_ohm = odd_[k].added_ohm;
      cell.shorted = odd_[k].shorted ? 1 : 0;
    }
    if (charger_works(ctx.reader())) float_full_cells(ctx);
    set_charger(ctx, 0, 10 * kMinute);
    make_felt(ctx);
    s.next = ctx.schedule(10 * kMinute, kReckon, Phase::kObserve);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    BatteryState& s = ctx.state(state_);
    const SimTime since = ctx.now() - s.at;
    const double drawn_as = reckon(ctx);
    if (event.kind >= kCommandBase && event.kind < kLinkChangedBase) {
      obey(static_cast<Command>(event.kind - kCommandBase), event.value, ctx);
    }
    if (event.kind != kReckon) ctx.cancel(s.next);
    // What was drawn within moments, between two commands, tells nothing of the load.
    if (since >= kMinute) s.drawn_a = drawn_as / to_seconds(since);
    const SimTime pause =
        next_reckoning(kind_.capacity_as, std::max(std::fabs(s.drawn_a), s.charger_a));
    set_charger(ctx, s.drawn_a, pause);
    make_felt(ctx);
    s.next = ctx.schedule(ctx.now() + pause, kReckon, Phase::kObserve);
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
    const BatteryState& s = r.state(state_);
    switch (reading - kSourceReadings) {
      case kResistance:
        return source.element.resistance_ohm;
      case kLeft:
        return mean(r, [](const LeadCell& c) { return c.charge; });
      case kChargerCurrent:
        return s.charger_a;
      case kPutIn:
        return s.put_in_as;
      case kGravity:
        return mean(r, [this](const LeadCell& c) { return kind_.gravity(c); });
      case kWaterLost:
        return mean(r, [](const LeadCell& c) { return c.water_g / 1000; });
      default:
        return static_cast<double>(weakest(r) + 1);
    }
  }

  void report(Report& report, const Reader& r) const override;

 private:
  static LeadCellKind kind_of(const Builder& b) {
    LeadCellKind kind;
    kind.capacity_as = b.number("capacity");
    kind.full_v = b.number("full_emf");
    kind.empty_v = b.number("empty_emf");
    kind.ohm = b.number("resistance");
    kind.surface = b.number("surface_charge");
    kind.surface_v = b.number("surface_emf");
    kind.surface_s = b.number("surface_time");
    kind.stored = b.number("stored");
    kind.peukert = b.number("peukert");
    kind.rated_s = b.number("rated_time");
    kind.water_reserve_g = b.number("water_reserve") * 1000;
    return kind;
  }
  static std::vector<OddCell> odd_cells_of(Builder& b) {
    std::vector<OddCell> cells(static_cast<std::size_t>(b.number("cells")));
    for (OddCell& cell : cells) cell.charge = b.number("charge");
    for (const auto& record : b.value("odd_cells").records) {
      const std::size_t k = cell_of(field_of(record, "cell").number, cells.size());
      if (k == cells.size()) {
        b.refuse("odd_cells", field_of(record, "cell"),
                 fmt::format("the battery has only {} cells", cells.size()),
                 "count them from 1 at the positive end");
        continue;
      }
      cells[k] = {field_of(record, "charge").number, field_of(record, "added").number,
                  field_of(record, "shorted").number != 0};
    }
    return cells;
  }

  void draw_cell(std::size_t k, LeadCell& cell, Ctx& ctx) const {
    const std::uint64_t changes = cell.changes;
    const std::uint64_t number = changes * static_cast<std::uint64_t>(kMostCells) + k;
    cell = LeadCell{};
    cell.changes = changes;
    cell.charge = 1;
    cell.capacity_as = kind_.capacity_as * drawn_factor(ctx, kCapacity, number, unlike_);
    cell.ohm_factor = drawn_factor(ctx, kOhms, number, unlike_);
  }

  void obey(Command command, double argument, Ctx& ctx) const {
    switch (command) {
      case kChargerOn:
      case kChargerOff:
        ctx.state(state_).charger_on = command == kChargerOn ? 1 : 0;
        break;
      case kTopUp:
        for (const auto& slot : cells_) ctx.state(slot).water_g = 0;
        break;
      case kChangeCell: {
        const std::size_t k = cell_of(argument, cells_.size());
        if (k == cells_.size()) break;
        ++ctx.state(cells_[k]).changes;
        draw_cell(k, ctx.state(cells_[k]), ctx);
        break;
      }
    }
  }

  /// Books what has flowed since the last time. Units: A s, to the installation.
  double reckon(Ctx& ctx) const {
    BatteryState& s = ctx.state(state_);
    const double seconds = to_seconds(ctx.now() - s.at);
    const double total_as = ctx.reader().source_charge_as(number_);
    const double drawn_as = total_as - s.delivered_as;
    const double put_in_as = s.charger_a * seconds;
    s.delivered_as = total_as;
    s.put_in_as += put_in_as;
    s.at = ctx.now();
    for (const auto& slot : cells_) kind_.give(ctx.state(slot), drawn_as - put_in_as, seconds);
    return drawn_as;
  }

  double mains_v(const Reader& r) const {
    return surroundings_.valid() ? r.state(surroundings_).mains_v : charger_.rated_mains_v;
  }
  bool charger_works(const Reader& r) const {
    return r.state(state_).charger_on != 0 && mains_v(r) > 0;
  }
  double float_v(const Reader& r) const {
    const double deviation = mains_v(r) / charger_.rated_mains_v - 1;
    return charger_.float_v * (1 + charger_.mains_share * deviation);
  }

  /// Volts at the terminals after `seconds` of a charging current.
  double charged_to_v(Ctx& ctx, double current_a, double seconds) const {
    double volts = current_a * ohm_sum(ctx.reader());
    for (const auto& slot : cells_) {
      LeadCell cell = ctx.state(slot);
      kind_.give(cell, -current_a * seconds, seconds);
      volts += kind_.emf_v(cell);
    }
    return volts;
  }
  /// A charger carries what was drawn of late and adds what brings the terminals to its voltage by
  /// the next reckoning, within its limit.
  void set_charger(Ctx& ctx, double drawn_a, SimTime pause) const {
    BatteryState& s = ctx.state(state_);
    s.charger_a = 0;
    if (!charger_works(ctx.reader())) return;
    const double aim_v = float_v(ctx.reader());
    double least_a = 0;
    double most_a = charger_.limit_a;
    constexpr int kHalvings = 40;
    for (int k = 0; k < kHalvings; ++k) {
      const double middle_a = (least_a + most_a) / 2;
      const bool too_much = charged_to_v(ctx, middle_a - drawn_a, to_seconds(pause)) > aim_v;
      (too_much ? most_a : least_a) = middle_a;
    }
    s.charger_a = least_a;
  }
  /// Full cells have been on float for long: their surfaces are charged.
  void float_full_cells(Ctx& ctx) const {
    double lacking_v = float_v(ctx.reader());
    double full = 0;
    for (const auto& slot : cells_) {
      lacking_v -= kind_.emf_v(ctx.state(slot));
      if (lifts(ctx.state(slot))) ++full;
    }
    if (lacking_v <= 0 || full == 0) return;
    for (const auto& slot : cells_) {
      LeadCell& cell = ctx.state(slot);
      if (lifts(cell)) cell.charge += lacking_v / full / kind_.surface_v * kind_.surface;
    }
  }
  static bool lifts(const LeadCell& cell) { return cell.charge >= 1 && cell.shorted == 0; }

  double ohm_sum(const Reader& r) const {
    double sum = leads_ohm_;
    for (const auto& slot : cells_) sum += kind_.resistance_ohm(r.state(slot));
    return sum;
  }
  void make_felt(Ctx& ctx) const {
    constexpr double kOhmStep = 0.05;
    BatteryState& s = ctx.state(state_);
    const double ohm = ohm_sum(ctx.reader());
    double emf_v = ohm * s.charger_a;
    for (const auto& slot : cells_) emf_v += kind_.emf_v(ctx.state(slot));
    if (!s.felt.follow(emf_v, ohm, emf_step_v_, kOhmStep)) return;
    circuit::Source& source = ctx.change_source(number_);
    source.emf_v = s.felt.emf_v;
    source.resistance_ohm = s.felt.resistance_ohm;
  }
  BuiltSource source_now(const Reader& r) const {
    const FeltSource& felt = r.state(state_).felt;
    return {{plus_, minus_, felt.emf_v, felt.resistance_ohm, -1}, number_};
  }

  template <class Of>
  double mean(const Reader& r, const Of& of) const {
    double sum = 0;
    for (const auto& slot : cells_) sum += of(r.state(slot));
    return sum / static_cast<double>(cells_.size());
  }
  std::size_t weakest(const Reader& r) const {
    const auto volts = [&](std::size_t k) {
      const LeadCell& cell = r.state(cells_[k]);
      return kind_.emf_v(cell) - kind_.resistance_ohm(cell) * source_now(r).current_a(r);
    };
    std::size_t least = 0;
    for (std::size_t k = 1; k < cells_.size(); ++k) {
      if (volts(k) < volts(least)) least = k;
    }
    return least;
  }
  void report_cell(Report& report, const Reader& r, std::size_t k) const;
  void warn(Report& report, const Reader& r) const;

  std::string name_;
  LeadCellKind kind_;
  Charger charger_;
  double leads_ohm_;
  double unlike_;
  double emf_step_v_;
  bool starts_on_;
  std::vector<OddCell> odd_;
  circuit::Node plus_;
  circuit::Node minus_;
  StateSlot<BatteryState> state_;
  StateSlot<Surroundings> surroundings_;
  std::vector<StateSlot<LeadCell>> cells_;
  int number_ = -1;
};

void LeadAcid::report(Report& report, const Reader& r) const {
  const BatteryState& s = r.state(state_);
  const BuiltSource source = source_now(r);
  source.report(report, r, name_, "supply", "supplies");
  const double left = mean(r, [](const LeadCell& c) { return c.charge; });
  const double gassed_as = mean(r, [](const LeadCell& c) { return c.gassed_as; });
  const double water_g = mean(r, [](const LeadCell& c) { return c.water_g; });
  const double hydrogen_l = gassed_as * kHydrogenLPerAs * static_cast<double>(cells_.size());
  report.append("batteries")
      .text("id", name_)
      .put("left", std::clamp(left, 0.0, 1.0))
      .put("put_in_ah", s.put_in_as / 3600, "Ah")
      .put("water_lost_g", water_g, "g")
      .put("hydrogen_l", hydrogen_l, "l");
  report.say("Supply",
             fmt::format("{}: {}; charger {}, {:.2f} Ah put in; {:.0f} % charged; {:.1f} l of "
                         "hydrogen given off.",
                         name_, source.sentence(r), charger_works(r) ? "working" : "idle",
                         s.put_in_as / 3600, 100 * std::clamp(left, 0.0, 1.0), hydrogen_l));
  for (std::size_t k = 0; k < cells_.size(); ++k) report_cell(report, r, k);
  warn(report, r);
}

void LeadAcid::report_cell(Report& report, const Reader& r, std::size_t k) const {
  const LeadCell& cell = r.state(cells_[k]);
  const double ohm = kind_.resistance_ohm(cell);
  report.append("cells")
      .text("id", name_)
      .count("cell", static_cast<std::int64_t>(k) + 1)
      .put("emf_v", kind_.emf_v(cell), "V")
      .put("resistance_ohm", ohm, "ohm")
      .put("loaded_v", kind_.emf_v(cell) - ohm * r.source_most_a(number_), "V")
      .put("left", std::clamp(cell.charge, 0.0, 1.0))
      .put("gravity", kind_.gravity(cell));
}

void LeadAcid::warn(Report& report, const Reader& r) const {
  std::vector<std::size_t> dead;
  std::vector<std::size_t> dry;
  bool empty = false;
  for (std::size_t k = 0; k < cells_.size(); ++k) {
    const LeadCell& cell = r.state(cells_[k]);
    if (cell.shorted != 0) dead.push_back(k);
    if (cell.water_g > kind_.water_reserve_g) dry.push_back(k);
    empty = empty || cell.charge <= 0;
  }
  if (!dead.empty()) {
    report.warn(fmt::format("{}: nothing comes from {}; a charger boils the others meanwhile.",
                            name_, cells_named(dead)));
  }
  if (!dry.empty()) {
    report.warn(fmt::format("{}: the plates of {} stand dry; top up with distilled water.", name_,
                            cells_named(dry)));
  }
  if (empty) {
    report.warn(fmt::format("{}: run empty; charge it within a day, or its plates harden.", name_));
  }
}

ParamDecl shorted_field() {
  ParamDecl field = count_field("shorted", 0, 1, "sediment joins its plates", false);
  field.kind = ParamKind::kFlag;
  return field;
}

ParamDecl charge_field() {
  ParamDecl field =
      quantity_field("charge", "1", 0, 1, "share of its capacity at the start", false);
  field.standard.number = 1;
  return field;
}

class LeadAcidType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "lead-acid battery with charger";
    d.stand = {Stand::Where::kCorner, 0, 0, "", ""};
    d.help = "Lead-acid cells in series; a charger floats them while it works and has mains.";
    d.count("cells", 11, 1, kMostCells, "cells in series");
    declare_cell(d);
    d.quantity("leads", "ohm", 0.08, 0, 1e6, "resistance of leads and posts");
    d.quantity("charge", "1", 1, 0, 1, "share of the capacity at the start; full ones float");
    d.quantity("emf_step", "V", 0.05, 1e-3, 1,
               "steps in which the battery's volts are felt: finer ones cost time",
               "chosen to be less than any measurement tells, and as coarse as that allows");
    declare_charger(d);
    d.records(
        "odd_cells",
        {count_field("cell", 1, kMostCells, "which, from 1 at the positive end"), charge_field(),
         quantity_field("added", "ohm", 0, 100, "resistance it has more than it ought to", false),
         shorted_field()},
        "cells that are not as the others at the start");
    d.terminal("plus", "positive terminal");
    d.terminal("minus", "negative terminal");
    d.takes<Surroundings>("surroundings", "whose mains feed the charger", true);
    d.command("charger_on", "switches the charger on");
    d.command("charger_off", "switches the charger off");
    d.command("top_up", "fills all cells up with distilled water");
    d.command("change_cell", "puts one new, charged cell in", cell_argument(kMostCells));
    declare_readings(d);
    d.event(kReckon, "reckons", "what its cells have given and got is booked");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<LeadAcid>(b);
  }

 private:
  static void declare_cell(Declaration& d) {
    d.quantity("capacity", "C", 360, 3.6e6, "charge that a cell gives at the rated current");
    d.quantity("full_emf", "V", 2.1, 1.5, 2.4, "of a cell, full and rested");
    d.quantity("empty_emf", "V", 1.918, 1.5, 2.4, "of a cell, empty and rested");
    d.quantity("resistance", "ohm", 0.02, 1e-5, 10, "of a cell");
    d.quantity("unlike", "1", 0.02, 0, 0.5,
               "share by which cells of a battery differ, in capacity and in resistance");
    d.quantity("peukert", "1", 1.2, 1, 2, "exponent by which large currents cost capacity",
               "battery handbooks, from memory: 1.2 to 1.6 flooded");
    d.quantity("rated_time", "s", 72000, 3600, 3.6e5,
               "discharge time that the capacity is told for");
    d.quantity("stored", "1", 0.9, 0.3, 1, "share of a charging current that is stored");
    d.quantity("surface_charge", "1", 0.005, 1e-4, 0.1,
               "share of the capacity that a full cell takes on the surface of its plates");
    d.quantity("surface_emf", "V", 0.15, 0, 1, "volts that it lifts a cell by");
    d.quantity("surface_time", "s", 28800, 60, 1e7,
               "time in which most of it goes by itself, as gas");
    d.quantity("water_reserve", "kg", 0.15, 1e-3, 10, "water above a cell's plates when topped up");
  }
  static void declare_charger(Declaration& d) {
    d.flag("charger", true, "the charger is switched on at the start");
    d.quantity("float_voltage", "V", 24.0, 1, 100,
               "voltage that the charger brings the battery to");
    d.quantity("charger_limit", "A", 2, 0.01, 100, "most current that it gives");
    d.quantity("mains_share", "1", 0, 0, 1,
               "share of the mains' rise and fall that its voltage follows; 0 is regulated");
    d.quantity("rated_mains", "V", 230, 50, 500, "mains for which its voltage is as set");
  }
  static void declare_readings(Declaration& d) {
    declare_source_readings(d);
    d.reading("resistance", "ohm", "internal resistance with the leads");
    d.reading("left", "1", "share of the capacity that is left, mean of its cells; surface above 1")
        .told = Told::kShare;
    d.reading("charger_current", "A", "current that the charger gives now");
    d.sum("put_in", "C", "charge that the charger has given since the start");
    d.reading("gravity", "1", "specific gravity of the acid, mean of its cells");
    d.reading("water_lost", "kg", "water gassed away since it was topped up, mean of its cells");
    d.reading("weakest_cell", "cell", "which cell has the least volts now");
  }
};

}  // namespace

const PartType& lead_acid_part() {
  static const LeadAcidType type;
  return type;
}

}  // namespace sixty::models
