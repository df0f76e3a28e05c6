// Solenoid, pawl, ratchet and spring. What a stroke gathers depends on how far the plunger travels:
// each step is a mark on its way, so that a weak, short or overlong stroke does what it would do.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/base/text.hpp"
#include "sim/part/coil_params.hpp"
#include "sim/part/figure_pieces.hpp"
#include "sim/part/margin.hpp"
#include "sim/part/missed.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

constexpr std::uint32_t kClickStream = 0;
constexpr double kTeeth = 60;  // of the ratchet on the spring's arbor
constexpr double kToothRad = 2 * kPi / kTeeth;
constexpr auto kPartsPerTooth = static_cast<std::int64_t>(Drive::kPartsPerTurn / kTeeth);

enum Command : std::uint16_t { kWind, kSetSpring };
enum Output : std::size_t { kTapeRow, kStroke };
enum Own : std::uint16_t { kToothGained = 1, kHeldClear, kWindNow };
enum Code : std::uint16_t { kTapeMark = 1, kToothMark, kSecondToothMark };
enum Reading : std::size_t { kSpringTeeth, kSpringTorque, kSeatSpeed, kStrokes, kMissed };

/// Values that do not change while a scene runs.
struct Values {
  double full_teeth = 0;  ///< a tooth is gathered only if it leaves no more than this
  double stop_teeth = 0;
  double stiffness = 0;  ///< Units: N m/rad
  double initial_teeth = 0;
  std::int64_t due_at = 0;  ///< step of the master's turn
  double tape_load_n = 0;
  double winding_travel_m = 0;  ///< of the plunger, for one tooth
  double click_slips = 0;       ///< chance that the click lets a gathered tooth run back
};

struct RewindState {
  std::int64_t strokes = 0;  ///< plunger left its rest
  std::int64_t failed = 0;   ///< and came back without tooth or row
  DrivesInVain held;         ///< plunger did not leave its rest
  std::int64_t held_clear = 0, by_hand = 0;
  std::int64_t under_way = 0;
  double seat_m_per_s = 0;           ///< how fast the plunger met its seat last
  std::int64_t rows = 0, teeth = 0;  ///< gathered by the stroke that is under way
  LeastMargin margin;
  std::int64_t last_minute = 0;  ///< of the shaft compared with, at the latest stroke
  std::int64_t last_at = 0;      ///< and of true time
  std::uint64_t click_draws = 0;
  MissedMinutes missed_at;
};

constexpr double kRatchet = 98;      // radius, units of the drawing
constexpr double kDrawnStroke = 26;  // of the plunger
constexpr double kAxis_y = -131;     // of the solenoid

constexpr double kLeastForce_n = 0.1;  // less is not drawn

void draw_solenoid(Figure& f, double stroke, double current_a) {
  f.box(Material::kIron, {70, -190}, {248, -72}, 6);
  f.box(Material::kHollow, {82, -148}, {236, -114});
  draw_winding(f, {84, -178}, {234, -148}, 4.2, current_a);
  draw_winding(f, {84, -114}, {234, -84}, 4.2, current_a);
  const double x = kDrawnStroke * (stroke - 1);
  // Seat and plunger are cones that fit each other.
  f.area(Material::kIron,
         std::array{Point{236, -148}, Point{182, -148}, Point{171, -131}, Point{182, -114},
                    Point{236, -114}},
         1);
  f.line(Material::kBrass, std::array{Point{168 + x, kAxis_y}, Point{282 + x, kAxis_y}}, 5, 2);
  f.area(Material::kSteel,
         std::array{Point{30 + x, -145}, Point{179 + x, -145}, Point{168 + x, -131},
                    Point{179 + x, -117}, Point{30 + x, -117}},
         3);
  f.box(Material::kBrass, {4 + x, -136}, {32 + x, -126}, 3);
  f.box(Material::kInsulation, {108, -202}, {124, -188}, 2);
  f.disc(Material::kBrass, {116, -195}, 5, 1);
  f.box(Material::kInsulation, {198, -74}, {214, -60}, 2);
  f.disc(Material::kBrass, {206, -67}, 5, 1);
}

void draw_ratchet(Figure& f, double turn_rad, double spring_turns) {
  {
    const Figure::Within wheel(f, {{}, turn_rad, 1});
    std::vector<Point> outer, inner;
    for (int k = 0; k < static_cast<int>(kTeeth); ++k) {
      const double a = k * kToothRad;
      for (const Point p : {polar(0.91 * kRatchet, a), polar(kRatchet, a + 0.02 * kToothRad),
                            polar(0.955 * kRatchet, a + 0.5 * kToothRad)})
        outer.push_back(p);
      for (const double share : {0.0, 0.02, 0.5})
        inner.push_back(polar(0.78 * kRatchet, a + share * kToothRad));
    }
    f.band(Material::kSteel, outer, inner, 5);
  }
  f.line(Material::kBlueSteel, spiral_of(16, 70, 4 + spring_turns, turn_rad), 3.2, 3);
  f.disc(Material::kBrass, {}, 24, 3);
  const Figure::Within square(f, {{}, turn_rad, 1});
  f.box(Material::kSteel, {-7, -7}, {7, 7}, 1);
}

void draw_lever(Figure& f, double stroke) {
  constexpr double kAtRest_rad = -0.1134, kTurns_rad = 0.157;
  const double turn = kAtRest_rad + kTurns_rad * stroke;
  // The click holds the wheel from below.
  f.area(Material::kBrass, std::array{Point{20, 96}, Point{28, 88}, Point{72, 128}, Point{62, 138}},
         4);
  f.disc(Material::kBrass, {70, 134}, 11, 3);
  draw_screw(f, {70, 134}, 5, 0.9);
  const Figure::Within lever(f, {{}, turn, 1});
  f.area(Material::kBrass,
         std::array{Point{-20, 8}, Point{-13, -120}, Point{-14, -140}, Point{14, -140},
                    Point{13, -120}, Point{20, 8}},
         5);
  f.disc(Material::kBrass, {}, 20, 2);
  f.disc(Material::kSteel, {0, kAxis_y}, 8, 2);
  // The pawl hangs on the lever and lies behind a tooth.
  f.area(
      Material::kSteel,
      std::array{Point{-8, -126}, Point{2, -122}, Point{25, -98}, Point{19, -92}, Point{-9, -116}},
      4);
}

class Rewind final : public Part {
 public:
  explicit Rewind(Builder& b)
      : name_(b.name()),
        values_(values_of(b)),
        built_(add_coil(b, coil_with_marks(b))),
        state_(b.state<RewindState>()),
        drive_(b.offered<Drive>("spring")),
        compared_with_(b.taken<Shaft>("compared_with")) {}

  void start(Ctx& ctx) const override {
    RewindState& s = ctx.state(state_);
    s = RewindState{};
    s.last_minute = -1;
    s.last_at = MissedMinutes::minute_of(ctx.reader()) - 1;
    Drive& drive = ctx.state(drive_);
    drive.torque_per_part_nm = values_.stiffness * kToothRad / kPartsPerTooth;
    drive.put_in = std::llround(values_.initial_teeth * kPartsPerTooth);
    set_load(ctx);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    if (event.kind == kCommandBase + kWind) {
      ++ctx.state(state_).by_hand;
      ctx.schedule(ctx.now(), kWindNow, Phase::kObserve);
    } else if (event.kind == kWindNow) {
      wind(ctx);
    } else if (event.kind == kCommandBase + kSetSpring) {
      ctx.change_coil(built_.number).armature.preload_n = event.value;
      ctx.state(state_).margin.forget_build();
    } else if (is_link_change(event)) {
      built_.follow(ctx);
    }
  }

  void on_rebuilt(Ctx& ctx) const override {
    ctx.state(state_).margin.forget_build();
    if (ctx.state(state_).under_way == 0) set_load(ctx);
    ctx.link_changed(0);
  }

  void on_located(const circuit::Located& happening, Ctx& ctx) const override {
    RewindState& s = ctx.state(state_);
    switch (happening.what) {
      case circuit::What::kStarts:
        s.held.started(ctx.now());
        drove(happening, ctx, s);
        begin_stroke(ctx, s);
        break;
      case circuit::What::kSeats:
        s.seat_m_per_s = std::fabs(happening.speed_m_per_s);
        break;
      case circuit::What::kPasses:
        pass(happening.code, ctx, s);
        break;
      case circuit::What::kReturns:
        come_back(ctx, s);
        break;
      case circuit::What::kHeld:
        s.held.held(happening, ctx.now());
        drove(happening, ctx, s);
        explain_held(happening, ctx);
        break;
      default:
        break;
    }
  }

  double read(std::size_t reading, const Reader& r) const override {
    if (reading < kCoilReadings) return read_coil(r, built_, reading);
    switch (reading - kCoilReadings) {
      case kSpringTeeth:
        return teeth(r.state(drive_));
      case kSpringTorque:
        return torque_nm(r.state(drive_));
      case kSeatSpeed:
        return r.state(state_).seat_m_per_s;
      case kStrokes:
        return static_cast<double>(r.state(state_).strokes);
      default:
        return static_cast<double>(missed(r));
    }
  }

  // Ratchet, spring and lever of the hand's breadth in front, the solenoid lying at the right; the
  // plunger's stroke is drawn as 26 units.
  void draw(Figure& f, const Pose& at, const Reader& r) const override {
    const Figure::Within within(f, at);
    const circuit::Armature& armature = r.coil(built_.number).armature;
    const double stroke = 1 - r.coil_gap_m(built_.number) / armature.stroke_m;
    const Drive& drive = r.state(drive_);
    draw_solenoid(f, stroke, r.coil_current_a(built_.number));
    const double wound = static_cast<double>(drive.put_in) / kPartsPerTooth;
    draw_ratchet(f, wound * kToothRad, teeth(drive) / kTeeth);
    draw_lever(f, stroke);
    f.handle("wind", "", {-24, -144}, {24, 10});
    f.terminal("plus", {116, -194});
    f.terminal("minus", {206, -68});
    f.label({222, -92}, to_tr("winding"), {244, -42});
    f.label({88, 40}, to_tr("ratchet"), {128, 44});
    f.label({64, 120}, to_tr("click"), {112, 112});
    f.label({-46, 44}, to_tr("spring"), {-62, 130});
    draw_inside(f, stroke, r);
  }

  void report(Report& report, const Reader& r) const override {
    const RewindState& s = r.state(state_);
    const double left = teeth(r.state(drive_));
    Row row;
    row.count("strokes", s.strokes).count("missed", missed(r)).put("spring_teeth", left, "tooth");
    report.one_of("rewind", "rewinds", name_, row);
    report.say("Rewind", fmt::format("{}: {}, {} missed, {} by hand; {:.1f} teeth wound.", name_,
                                     counted(s.strokes, "stroke"), missed(r), s.by_hand, left));
    s.margin.report(report, name_, name_, r);
    MissedMinutes until_now = s.missed_at;
    until_now.add_after(s.last_at, minute(r) - s.last_minute - 1);
    report.missed(name_ + ": missed its stroke", until_now.text(r));
    if (missed(r) > 0) {
      report.warn(
          fmt::format("{}: {} missed; {} leaves the spring a tooth lower and the tape a row late.",
                      name_, counted(missed(r), "winding"), missed(r) == 1 ? "it" : "each"));
    }
  }

  // The plunger on its stops, and two pawls. Pitch and loudness: common practice, no source.
  std::vector<Voice> voices() const override {
    return {{Voice::Kind::kThump, located_kind(circuit::What::kSeats), 95, 0.25, 0.8, 1.15},
            {Voice::Kind::kThump, located_kind(circuit::What::kReturns), 120, 0.2, 0.45, 0.65},
            {Voice::Kind::kClick, kWindNow, 1900, 0.03, 0.25},
            {Voice::Kind::kTick, kMarkBase + kTapeMark, 2600, 0.02, 0.15}};
  }

 private:
  // What a large figure shows too: the flux through shell, plunger and seat, the gap between these
  // two, and what pulls.
  void draw_inside(Figure& f, double stroke, const Reader& r) const {
    if (!f.wants_close()) return;
    const Figure::Close close(f);
    const double share = iron_share(r, built_.number);
    draw_flux(f, {76, -184}, {242, -136}, -136, false, share);
    draw_flux(f, {76, -126}, {242, -78}, -126, false, share);
    const double x = kDrawnStroke * (stroke - 1);
    const double gap_m = r.coil_gap_m(built_.number);
    f.label({170 + x / 2, -131}, measure_text(to_tr("gap"), gap_m, "m"), {262, -206});
    const double pull = pull_now_n(r, built_.number);
    if (pull > kLeastForce_n) {
      draw_arrow(f, Material::kForce, {28 + x, -156}, {66 + x, -156}, 2.4);
      f.label({28 + x, -156}, measure_text(to_tr("pull"), pull, "N"), {4 + x, -170});
    }
    const circuit::Armature& armature = r.coil(built_.number).armature;
    const double load = circuit::load_n(armature, gap_m, load_n(r.state(drive_)));
    draw_arrow(f, Material::kNote, {66 + x, -112}, {34 + x, -112}, 1.6);
    f.label({34 + x, -112}, measure_text(to_tr("load"), load, "N"), {-24 + x, -98});
  }

  static Values values_of(Builder& b) {
    Values v;
    v.full_teeth = b.number("full");
    v.stop_teeth = b.number("stop");
    v.stiffness = b.number("stiffness");
    v.initial_teeth = std::min(b.number("initial_teeth"), v.stop_teeth);
    v.due_at = static_cast<std::int64_t>(b.number("due_at"));
    v.tape_load_n = b.number("tape_load");
    v.winding_travel_m = b.number("tooth_at") - b.number("pawls_meet_at");
    v.click_slips = b.number("click_slips");
    return v;
  }

  static circuit::Coil coil_with_marks(Builder& b) {
    circuit::Coil coil = coil_of(b, b.node("plus"), b.node("minus"));
    const double stroke = coil.armature.stroke_m;
    // Beyond this gap pawls and tape load the plunger; how much they do is told as it changes.
    coil.armature.second_from_m = std::max(stroke - b.number("pawls_meet_at"), 0.0);
    const double inner_stop = b.number("inner_stop");
    if (inner_stop > 0 && inner_stop < stroke) coil.armature.seat_m = stroke - inner_stop;
    add_mark(coil, stroke - b.number("tape_row_at"), kTapeMark);
    add_mark(coil, stroke - b.number("tooth_at"), kToothMark);
    add_mark(coil, stroke - b.number("second_tooth_at"), kSecondToothMark);
    return coil;
  }
  static void add_mark(circuit::Coil& coil, double gap_m, Code code) {
    if (gap_m <= coil.armature.seat_m) return;  // the plunger stops before it gets there
    circuit::Mark mark;
    mark.gap_m = gap_m;
    mark.code = code;
    coil.marks.push_back(mark);
  }

  // A plunger that stuck and goes on is still on the same stroke.
  void begin_stroke(Ctx& ctx, RewindState& s) const {
    if (s.under_way != 0) return;
    s.under_way = 1;
    s.missed_at.add_after(s.last_at, minute(ctx.reader()) - s.last_minute - 1);
    s.last_at = MissedMinutes::minute_of(ctx.reader());
    s.last_minute = minute(ctx.reader());
    s.rows = s.teeth = 0;
    ++s.strokes;
    ctx.emit(kStroke, 1);
  }

  // Between two strokes a pawl must go back all the way, so no mark counts twice in one.
  void pass(std::uint16_t code, Ctx& ctx, RewindState& s) const {
    if (code == kTapeMark) {
      if (s.rows++ == 0) ctx.emit(kTapeRow, 1);
      return;
    }
    const std::int64_t tooth = code == kToothMark ? 1 : 2;
    if (s.teeth >= tooth) return;
    s.teeth = tooth;
    ctx.schedule(ctx.now(), kWindNow, Phase::kObserve);
  }

  // A stroke that came home without its tooth or its row is a stroke missed.
  void come_back(Ctx& ctx, RewindState& s) const {
    s.under_way = 0;
    if (s.rows == 0 || s.teeth == 0) {
      ++s.failed;
      s.missed_at.add_now(ctx.reader());
      const std::array<Condition, 2> conditions = {
          Condition{to_tr("tape rows gathered"), static_cast<double>(s.rows), 1, s.rows != 0},
          Condition{to_tr("ratchet teeth gathered"), static_cast<double>(s.teeth), 1,
                    s.teeth != 0}};
      ctx.because(false, conditions);
    }
    ctx.emit(kStroke, 0);
    set_load(ctx);
  }

  void wind(Ctx& ctx) const {
    RewindState& s = ctx.state(state_);
    Drive& drive = ctx.state(drive_);
    const double after = teeth(drive) + 1;
    const bool free = after <= values_.full_teeth;
    ctx.because(free, std::array{Condition{to_tr("teeth wound after this stroke"), after,
                                           values_.full_teeth, free}});
    if (!free) {
      ++s.held_clear;
      return;
    }
    if (slips(ctx, s)) return;
    const double room = values_.stop_teeth * kPartsPerTooth - drive.parts_left();
    drive.put_in += std::clamp(static_cast<std::int64_t>(room), std::int64_t{0}, kPartsPerTooth);
    ctx.link_changed(0);
  }

  // The click does not hold what was gathered: it runs back at once.
  bool slips(Ctx& ctx, RewindState& s) const {
    if (values_.click_slips == 0) return false;
    const double draw = ctx.draw(kClickStream, s.click_draws++);
    const bool held = draw >= values_.click_slips;
    ctx.because(
        held, std::array{Condition{to_tr("the click holds the tooth"), held ? 1.0 : 0.0, 1, held}});
    return !held;
  }

  void drove(const circuit::Located& happening, Ctx& ctx, RewindState& s) const {
    s.margin.drove(happening, ctx.reader().coil(built_.number), load_n(ctx.state(drive_)),
                   ctx.now());
  }

  // Plunger's load beyond the place where the pawls meet: the tape's pawl, and the work of a tooth
  // spread over the plunger's travel for it.
  void set_load(Ctx& ctx) const { ctx.set_extra_load(built_.number, load_n(ctx.state(drive_))); }
  double load_n(const Drive& drive) const {
    return values_.tape_load_n + torque_nm(drive) * kToothRad / values_.winding_travel_m;
  }

  /// Turns of the shaft that says how many strokes were due; 0 without one.
  std::int64_t minute(const Reader& r) const {
    if (!compared_with_.valid() || r.state(compared_with_).steps_per_turn <= 0) return 0;
    return r.state(compared_with_).position / r.state(compared_with_).steps_per_turn;
  }

  static double teeth(const Drive& drive) {
    return drive.parts_left() / static_cast<double>(kPartsPerTooth);
  }
  static double torque_nm(const Drive& drive) {
    return drive.parts_left() * drive.torque_per_part_nm;
  }

  // Strokes that failed and, if a shaft says how many minutes have gone, those that never came.
  std::int64_t missed(const Reader& r) const {
    const RewindState& s = r.state(state_);
    std::int64_t due = 0;
    if (compared_with_.valid() && r.state(compared_with_).steps_per_turn > 0) {
      const Shaft& shaft = r.state(compared_with_);
      due = shaft.turns_past(values_.due_at, shaft.position) -
            shaft.turns_past(values_.due_at, shaft.began_at);
    }
    const std::int64_t held = s.held.count();
    return s.failed + held + std::max<std::int64_t>(due - s.strokes - held, 0);
  }

  std::string name_;
  Values values_;
  BuiltCoil built_;
  StateSlot<RewindState> state_;
  StateSlot<Drive> drive_;
  StateSlot<Shaft> compared_with_;
};

class RewindType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "electric rewind";
    d.stand = {Stand::Where::kFixed, 440, 636, "", ""};
    d.help =
        "A solenoid that winds the movement's spring by one tooth a stroke and steps the tape.";
    declare_winding(d, true);
    declare_armature(d, true);
    declare_spring(d);
    d.quantity("due_at", "beat", 10.0, 0.0, 3600,
               "step of the master's turn after which the minute's stroke has been due")
        .step = 1;
    d.terminal("plus", "feed of the solenoid");
    d.terminal("minus", "return of the solenoid");
    d.offers<Drive>("spring", "the spring");
    d.takes<Shaft>("compared_with", "arbor whose turns say how many strokes were due", true);
    d.command("wind", "works the hand lever once: one tooth, the tape stays");
    d.command("set_spring", "sets the load on the plunger at rest, its weight included",
              quantity_field("load", "N", 3.0, 8.0, "at rest"))
        .sets = "preload";
    d.output("tape_row", "1 as the tape's pawl has moved its row");
    d.output("stroke", "1 as the plunger starts, 0 as it is back");
    declare_coil_readings(d);
    d.reading("spring_teeth", "tooth", "teeth wound");
    d.reading("spring_torque", "N.m", "torque of the spring at its arbor");
    d.reading("seat_speed", "m/s", "how fast the plunger met its seat in its last stroke");
    d.sum("strokes", "1", "strokes since the start", Lane::kCount);
    d.sum("missed", "1", "strokes missed since the start");
    declare_armature_events(d);
    d.motion(kWindNow, "winds", "a tooth goes into the spring");
    d.called("wind", "winds");
    d.motion(kMarkBase + kTapeMark, "gathers_row", "the tape's pawl has its row");
    d.motion(kMarkBase + kToothMark, "gathers_tooth", "the pawl drops behind the next tooth");
    d.motion(kMarkBase + kSecondToothMark, "gathers_second_tooth", "the stroke is too long");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    if (b.number("tooth_at") <= b.number("pawls_meet_at")) {
      b.refuse("tooth_at", "the tooth is gathered before the pawls meet",
               "give a travel greater than pawls_meet_at");
    }
    return std::make_unique<Rewind>(b);
  }

 private:
  static void declare_spring(Declaration& d) {
    d.quantity("stiffness", "N.m/rad", 1e-4, 1, "stiffness of the spring at its arbor");
    d.quantity("full", "tooth", 1, 1000, "stop-work: no tooth is gathered that would wind beyond");
    d.quantity("stop", "tooth", 1, 1000, "hard stop of the spring");
    d.quantity("initial_teeth", "tooth", 30.5, 0, 1000, "teeth wound at the scene's start",
               "setting, not a property");
    d.quantity("pawls_meet_at", "m", 1e-4, 0.1, "travel from rest at which the pawls meet");
    d.quantity("tape_row_at", "m", 1e-4, 0.1, "travel at which the tape has its row");
    d.quantity("tooth_at", "m", 1e-4, 0.1, "travel at which the pawl drops behind a tooth");
    d.quantity("second_tooth_at", "m", 1e-4, 0.1, "travel at which it drops behind a second one");
    d.quantity("tape_load", "N", 0, 50, "force at the plunger that moving the tape takes");
    d.quantity("inner_stop", "m", 0.0, 0.0, 0.1,
               "travel at which a stop holds the plunger; 0: the iron does", "none unless given");
    d.quantity("click_slips", "1", 0.0, 0.0, 1,
               "chance that the click lets a gathered tooth run back", "a sound click: never");
  }
};

}  // namespace

const PartType& rewind_part() {
  static const RewindType type;
  return type;
}

}  // namespace sixty::models
