#include <fmt/format.h>

#include <array>
#include <cmath>

#include "sim/base/text.hpp"
#include "sim/part/coil_params.hpp"
#include "sim/part/contact_params.hpp"
#include "sim/part/figure_pieces.hpp"
#include "sim/part/margin.hpp"
#include "sim/part/missed.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

using circuit::What;

constexpr std::uint32_t kFilmStream = 0;
constexpr double kLeastForce_n = 0.01;          // less is not drawn
constexpr SimTime kQuiet = 500 * kMillisecond;  // longer than any stroke takes: the ringing is over

enum Kind : std::uint16_t { kFallsSilent };
enum Input : std::uint16_t { kAsked };
enum Output : std::size_t { kStruck };
enum Reading : std::size_t { kStrokes = kCoilReadings, kBuzzes, kRings, kLastSpeed, kSparkEnergy };

struct BellState {
  EventHandle silence;    ///< when the ringing will be over, if no stroke comes
  double last_speed = 0;  ///< of the last stroke
  std::int64_t strokes = 0, weak = 0, rings = 0;
  DrivesInVain dumb;
  std::int64_t missed = 0, unasked = 0;
  std::int64_t struck = 0;  ///< the swing that is under way has had its stroke
  std::int64_t rung = 0;    ///< the ringing that is under way has had a true stroke
  std::int64_t watched = 0, asked = 0, answered = 0;
  std::uint64_t draws = 0;
  ContactFaces faces;
  LeastMargin margin;
  MissedMinutes missed_at;
};

class Bell final : public Part {
 public:
  explicit Bell(Builder& b)
      : name_(b.name()),
        zone_(static_cast<std::int64_t>(b.number("zone"))),
        rings_from_(b.number("rings_from")),
        tone_hz_(b.number("gong_tone")),
        ring_s_(b.number("gong_ring")),
        faces_(contact_faces(b)),
        state_(b.state<BellState>()),
        air_(b.taken<Surroundings>("surroundings")) {
    const circuit::Node inner = b.inner_node();
    circuit::Contact contact;
    contact.a = b.node("plus");
    contact.b = inner;
    contact.closed_ohm = faces_.film.ohm(0.5);
    const Stuck stuck = stuck_of(b);
    contact.closed = stands_closed(stuck, true);
    contact.kind = contact_kind(b);
    contact_ = b.add(contact);
    circuit::Coil coil = coil_of(b, inner, b.node("minus"));
    coil.armature.seat_m = b.number("gong_at");
    if (stuck == Stuck::kFree) {
      coil.marks.push_back({b.number("breaks_at"), -1, contact_, false, 0});
      coil.marks.push_back({b.number("makes_at"), 1, contact_, true, 0});
    }
    coil_ = add_coil(b, std::move(coil));
  }

  void start(Ctx& ctx) const override {
    BellState& s = ctx.state(state_);
    s = BellState{};
    s.faces = faces_;
    draw_film(ctx, contact_, s.faces, kFilmStream, s.draws);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    BellState& s = ctx.state(state_);
    if (event.kind == kFallsSilent) fall_silent(ctx, s);
    if (is_link_change(event)) {
      feel_air(ctx, s);
    } else if (event.kind >= kCommandBase) {
      tend(event, ctx, s);
    }
    if (event.kind != kSignalBase + kAsked) return;
    if (s.asked != 0 && s.answered == 0) {
      ++s.missed;
      s.missed_at.add_before(ctx.reader(), 1);
    }
    s.watched = 1;
    s.asked = event.value != 0 ? 1 : 0;
    s.answered = 0;
  }

  void on_rebuilt(Ctx& ctx) const override {
    BellState& s = ctx.state(state_);
    s.margin.forget_build();
    draw_film(ctx, contact_, s.faces, kFilmStream, s.draws);
  }

  void on_located(const circuit::Located& happened, Ctx& ctx) const override {
    BellState& s = ctx.state(state_);
    switch (happened.what) {
      case What::kStarts:
        s.dumb.started(ctx.now());
        s.margin.drove(happened, ctx.reader().coil(coil_.number), 0, ctx.now());
        put_off_silence(ctx, s);
        s.struck = 0;
        break;
      case What::kSeats:
        strike(std::fabs(happened.speed_m_per_s), ctx, s);
        break;
      case What::kMakes:
        s.struck = 0;
        break;
      case What::kHeld:
        s.dumb.held(happened, ctx.now());
        s.margin.drove(happened, ctx.reader().coil(coil_.number), 0, ctx.now());
        explain_held(happened, ctx);
        break;
      default:
        break;
    }
  }

  double read(std::size_t reading, const Reader& r) const override {
    const BellState& s = r.state(state_);
    switch (reading) {
      case kStrokes:
        return static_cast<double>(s.strokes);
      case kBuzzes:
        return static_cast<double>(s.weak);
      case kRings:
        return static_cast<double>(s.rings);
      case kLastSpeed:
        return s.last_speed;
      case kSparkEnergy:
        return r.spark_j(contact_);
      default:
        return read_coil(r, coil_, reading);
    }
  }

  // Gong and clapper at its place between stop and gong; a hundred units wide.
  void draw(Figure& f, const Pose& at, const Reader& r) const override {
    const Figure::Within within(f, at);
    const double current = r.coil_current_a(coil_.number);
    f.box(Material::kInsulation, {-12, 30}, {52, 62}, 3);
    f.box(Material::kCopper, {-4, 36}, {40, 56}, 1).current_a = current;
    const circuit::Armature& armature = r.coil(coil_.number).armature;
    const double open = r.coil_gap_m(coil_.number) / armature.stroke_m;
    f.disc(Material::kBrass, {0, -10}, 46, 8);
    f.disc(Material::kDeepBrass, {0, -10}, 34, 0);
    f.disc(Material::kBrass, {0, -10}, 30, 0);
    draw_screw(f, {0, -10}, 7, 0.6);
    draw_inside(f, r);
    f.name_at({0, 70});
    const Figure::Within arm(f, {{-46, 66}, -0.24 * open, 1});
    f.line(Material::kSteel, std::array{Point{0, 0}, Point{-2, -52}}, 5, 3);
    f.disc(Material::kSteel, {-2, -58}, 10, 4);
    if (!r.contact_conducts(contact_)) f.spark({10, -10}, r.contact_current_a(contact_));
    f.terminal("plus", {-8, 64});
    f.terminal("minus", {48, 64});
  }

  void report(Report& report, const Reader& r) const override {
    const BellState& s = r.state(state_);
    Row& row = report.append("bells").text("id", name_).count("zone", zone_);
    row.count("rings", s.rings);
    if (s.watched != 0) {
      row.count("missed", s.missed).count("unasked", s.unasked);
    } else {
      row.nothing("missed").nothing("unasked");
    }
    row.count("strokes", s.strokes);
    report.say("Bells", sentence(s));
    s.margin.report(report, fmt::format("zone {}", zone_), name_, r);
    report.missed(name_ + ": missed its ring", s.missed_at.text(r, "ring"));
    if (s.missed > 0) report.warn(fmt::format("{}: missed {}.", name_, counted(s.missed, "ring")));
    if (s.dumb.count() > 0) report.warn(s.dumb.sentence(name_, "starting"));
  }

  // The gong, struck well enough, and the knock of the clapper in any case. Strokes of this bell
  // have some 0.25 m/s.
  std::vector<Voice> voices() const override {
    const std::uint16_t strikes = located_kind(What::kSeats);
    return {{Voice::Kind::kRing, strikes, tone_hz_, ring_s_, 0.35, 0.25, rings_from_},
            {Voice::Kind::kClick, strikes, 2.7 * tone_hz_, 0.02, 0.08, 0.25}};
  }

 private:
  // What a large figure shows too: the coil cut open in its iron, the flux, and what is measured.
  void draw_inside(Figure& f, const Reader& r) const {
    if (!f.wants_close()) return;
    const Figure::Close close(f);
    const double current = r.coil_current_a(coil_.number);
    f.area(Material::kIron,
           std::array{Point{-36, 46}, Point{46, 46}, Point{46, 62}, Point{-52, 62}, Point{-52, 68},
                      Point{52, 68}, Point{52, 40}, Point{-36, 40}},
           2);
    draw_winding(f, {-4, 32}, {40, 40}, 1.4, current);
    draw_winding(f, {-4, 46}, {40, 54}, 1.4, current);
    draw_flux(f, {-46, 43}, {49, 65}, 43, true, iron_share(r, coil_.number));
    f.label({24, -46}, to_tr("gong"), {62, -52});
    f.label({-48, 10}, to_tr("clapper"), {-64, -8});
    f.label({-40, 43}, measure_text(to_tr("gap"), r.coil_gap_m(coil_.number), "m"), {-64, 34});
    f.label({36, 50}, measure_text(to_tr("winding"), told_a(current), "A"), {62, 36});
    const double pull = pull_now_n(r, coil_.number);
    if (pull < kLeastForce_n) return;
    draw_arrow(f, Material::kForce, {-72, 52}, {-52, 52}, 1.3);
    f.label({-72, 52}, measure_text(to_tr("pull"), pull, "N"), {-84, 58});
  }

  void feel_air(Ctx& ctx, BellState& s) const {
    coil_.follow(ctx);
    if (!tarnish(ctx.state(air_), s.faces)) return;
    draw_film(ctx, contact_, s.faces, kFilmStream, s.draws);
  }

  void tend(const Event& event, Ctx& ctx, BellState& s) const {
    const auto care = static_cast<std::uint16_t>(event.kind - kCommandBase);
    if (care < kContactCare) {
      tend_contact(care, event.value, contact_, s.faces, ctx);
      draw_film(ctx, contact_, s.faces, kFilmStream, s.draws);
    } else if (tend_armature(care - kContactCare, event.value, coil_.number, ctx)) {
      s.margin.forget_build();
    }
  }

  std::string sentence(const BellState& s) const {
    std::string rang = fmt::format("{}: zone {}, {}", name_, zone_, happened("rang", s.rings));
    if (s.strokes > 0) rang += " with " + counted(s.strokes, "stroke");
    const std::string weak =
        s.weak > 0 ? ", and buzzed with " + counted(s.weak, "weak stroke") : "";
    if (s.watched == 0) return rang + weak + ".";
    return fmt::format("{}{}; missed {}, unasked {}.", rang, weak, s.missed, s.unasked);
  }

  static void put_off_silence(Ctx& ctx, BellState& s) {
    ctx.cancel(s.silence);
    s.silence = ctx.schedule(ctx.now() + kQuiet, kFallsSilent, Phase::kObserve);
  }

  // The interrupter's film is drawn once for each ringing, when the one before is over, so that the
  // strokes of one are alike.
  void fall_silent(Ctx& ctx, BellState& s) const {
    s.rung = 0;
    draw_film(ctx, contact_, s.faces, kFilmStream, s.draws);
  }

  // The clapper may rebound and touch the gong again; that is still the same stroke.
  void strike(double speed, Ctx& ctx, BellState& s) const {
    put_off_silence(ctx, s);
    if (s.struck != 0) return;
    s.struck = 1;
    s.last_speed = speed;
    const bool rings = speed >= rings_from_;
    ++(rings ? s.strokes : s.weak);
    ctx.emit(kStruck, speed);
    if (rings && s.rung == 0) begin_ring(s);
  }

  static void begin_ring(BellState& s) {
    s.rung = 1;
    ++s.rings;
    if (s.asked != 0 && s.answered == 0) {
      s.answered = 1;
    } else if (s.watched != 0) {
      ++s.unasked;
    }
  }

  std::string name_;
  std::int64_t zone_;
  double rings_from_, tone_hz_, ring_s_;
  ContactFaces faces_;
  StateSlot<BellState> state_;
  StateSlot<Surroundings> air_;
  int contact_ = -1;
  BuiltCoil coil_;
};

class BellType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "bell with interrupter";
    d.stand = {Stand::Where::kRoom, 0, 0, "", "zone"};
    d.help = "Electromagnet whose own contact breaks its current at each stroke of the clapper.";
    declare_winding(d, true);
    declare_armature(d, true);
    d.quantity("gong_at", "m", 0.0, 0.1, "gap at which the clapper strikes the gong");
    d.quantity("breaks_at", "m", 0.0, 0.1, "gap at which the interrupter breaks, closing");
    d.quantity("makes_at", "m", 0.0, 0.1, "gap at which it makes again, opening");
    d.quantity("rings_from", "m/s", 0.15, 0.0, 10,
               "clapper's speed below which a stroke is a buzz");
    d.quantity("gong_tone", "Hz", 1350.0, 200.0, 6000, "frequency of the gong's lowest tone");
    d.quantity("gong_ring", "s", 1.6, 0.05, 20, "time in which that tone falls to a thousandth");
    d.count("zone", 1, 1, 8, "zone that it belongs to, for the report");
    declare_contact(d, {0.1, 0.015, 0.55, false, true});
    declare_stuck(d);
    declare_contact_care(d, 0.03, 1.0);
    declare_armature_care(d, {0.1, 1.5}, {4e-3, 0.01});
    d.terminal("plus", "feed");
    d.terminal("minus", "return");
    d.input("asked", "1 while the timetable asks for a ring, 0 when it no longer does");
    d.output("struck", "speed of each stroke, m/s");
    declare_coil_readings(d);
    d.sum("strokes", "1", "strokes since the start", Lane::kCount);
    d.sum("buzzes", "1", "strokes too weak to ring since the start");
    d.sum("rings", "1", "rings since the start");
    d.reading("stroke_speed", "m/s", "clapper's speed in its last stroke");
    d.sum("spark_energy", "J", "energy of the interrupter's sparks since the start");
    declare_events(d);
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    const double gong = b.number("gong_at");
    const double breaks = b.number("breaks_at");
    const double makes = b.number("makes_at");
    if (!(gong < breaks && breaks < makes && makes < b.number("stroke"))) {
      b.refuse("makes_at", "the interrupter's gaps are not in order",
               "they go: gong_at < breaks_at < makes_at < stroke");
    }
    return std::make_unique<Bell>(b);
  }

 private:
  static void declare_events(Declaration& d) {
    d.event(kFallsSilent, "falls_silent", "no stroke has come for half a second");
    d.motion(static_cast<std::uint16_t>(kLocatedBase + static_cast<std::uint16_t>(What::kSeats)),
             "strikes", "the clapper strikes the gong");
    declare_armature_events(d);
    d.called("ring", "strikes");
    declare_contact_events(d);
  }
};

}  // namespace

const PartType& bell_part() {
  static const BellType type;
  return type;
}

}  // namespace sixty::models
