#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/part/coil_params.hpp"
#include "sim/part/contact_params.hpp"
#include "sim/part/figure_pieces.hpp"
#include "sim/part/margin.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

using circuit::What;

// Commands: kContactCare of the contact, then kArmatureCare of the armature.
enum Output : std::size_t { kPulled };
enum Reading : std::size_t {
  kClosed = kCoilReadings,
  kContactResistance,
  kContactVolts,
  kPullIn,
  kDropOut,
  kPulls,
  kSparkEnergy
};

constexpr std::uint32_t kFilmStream = 0;
constexpr double kLeastForce_n = 0.01;  // less is not drawn

/// A contact that makes again and again so soon after it broke that nobody can have meant it. Once
/// or twice a feeding contact's bounce, or a row of the paper going by, does that too.
struct Chatter {
  static constexpr SimTime kSoon = 100 * kMillisecond;
  static constexpr std::int64_t kSuffered = 2;
  SimTime broke_at = -kSoon;
  SimTime first_at = 0;
  std::int64_t in_a_row = 0;
  std::int64_t count = 0;  ///< of those beyond what is suffered

  void broke(SimTime now) { broke_at = now; }
  void made(SimTime now) {
    in_a_row = now - broke_at < kSoon ? in_a_row + 1 : 0;
    if (in_a_row <= kSuffered) return;
    if (count == 0) first_at = now;
    ++count;
  }
};

struct RelayState {
  std::int64_t pulls = 0;
  Chatter chatter;
  DrivesInVain held;
  std::uint64_t draws = 0;
  ContactFaces faces;
  LeastMargin margin;
};

class Relay final : public Part {
 public:
  explicit Relay(Builder& b)
      : name_(b.name()),
        contact_a_(b.node("contact_a")),
        contact_b_(b.node("contact_b")),
        serves_(b.value("serves").text),
        faces_(contact_faces(b)),
        state_(b.state<RelayState>()),
        air_(b.taken<Surroundings>("surroundings")) {
    circuit::Contact contact;
    contact.a = contact_a_;
    contact.b = contact_b_;
    contact.closed_ohm = faces_.film.ohm(0.5);
    contact.kind = contact_kind(b);
    const Stuck stuck = stuck_of(b);
    contact.closed = stands_closed(stuck, false);
    contact_ = b.add(contact);
    circuit::Coil coil = coil_of(b, b.node("coil_a"), b.node("coil_b"));
    const double makes_at = b.number("makes_at");
    if (makes_at >= coil.armature.stroke_m) {
      b.refuse("makes_at", "the contact would be made with the armature open",
               "give a gap smaller than the stroke");
    }
    if (stuck == Stuck::kFree) {
      coil.marks.push_back({makes_at, -1, contact_, true, 0});
      coil.marks.push_back({makes_at, 1, contact_, false, 0});
    }
    coil_ = add_coil(b, std::move(coil));
  }

  void start(Ctx& ctx) const override {
    ctx.state(state_).faces = faces_;
    draw_next(ctx);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    if (event.kind < kCommandBase) return;
    RelayState& s = ctx.state(state_);
    if (is_link_change(event)) {
      coil_.follow(ctx);
      if (tarnish(ctx.state(air_), s.faces)) draw_next(ctx);
      return;
    }
    const auto care = static_cast<std::uint16_t>(event.kind - kCommandBase);
    if (care < kContactCare) {
      tend_contact(care, event.value, contact_, s.faces, ctx);
      draw_next(ctx);
    } else if (tend_armature(care - kContactCare, event.value, coil_.number, ctx)) {
      s.margin.forget_build();
    }
  }

  void on_rebuilt(Ctx& ctx) const override {
    ctx.state(state_).margin.forget_build();
    draw_next(ctx);
  }

  void on_located(const circuit::Located& happened, Ctx& ctx) const override {
    RelayState& s = ctx.state(state_);
    switch (happened.what) {
      case What::kMakes:
        ++s.pulls;
        s.chatter.made(ctx.now());
        ctx.emit(kPulled, 1);
        break;
      case What::kBreaks:
        s.chatter.broke(ctx.now());
        ctx.emit(kPulled, 0);
        draw_next(ctx);
        break;
      case What::kStarts:
        s.held.started(ctx.now());
        s.margin.drove(happened, ctx.reader().coil(coil_.number), 0, ctx.now());
        break;
      case What::kHeld:
        s.margin.drove(happened, ctx.reader().coil(coil_.number), 0, ctx.now());
        s.held.held(happened, ctx.now());
        explain_held(happened, ctx);
        break;
      default:
        break;
    }
  }

  double read(std::size_t reading, const Reader& r) const override {
    switch (reading) {
      case kClosed:
        return r.contact_conducts(contact_) ? 1 : 0;
      case kContactResistance:
        return r.contact_ohm(contact_);
      case kContactVolts:
        return r.volts_between(contact_a_, contact_b_);
      case kPullIn:
        return pull_in_v(r.coil(coil_.number));
      case kDropOut:
        return drop_out_v(r.coil(coil_.number));
      case kPulls:
        return static_cast<double>(r.state(state_).pulls);
      case kSparkEnergy:
        return r.spark_j(contact_);
      default:
        return read_coil(r, coil_, reading);
    }
  }

  // Coil with its yoke, the armature hinged at the left; it lifts the moving spring of the contact.
  void draw(Figure& f, const Pose& at, const Reader& r) const override {
    const Figure::Within within(f, at);
    const bool closed = r.contact_conducts(contact_);
    const double current = r.coil_current_a(coil_.number);
    const double load = r.contact_current_a(contact_);
    f.area(Material::kIron,
           std::array{Point{20, 31}, Point{192, 31}, Point{192, 99}, Point{180, 99}, Point{180, 42},
                      Point{20, 42}},
           4);
    f.box(Material::kIron, {38, 62}, {192, 78}, 2);
    draw_winding(f, {49, 47}, {171, 62}, 3.7, current);
    draw_winding(f, {49, 78}, {171, 93}, 3.7, current);
    f.box(Material::kIron, {33, 57}, {39, 83}, 2);
    f.box(Material::kBrass, {150, 93}, {156, 104});
    f.box(Material::kBrass, {164, 93}, {170, 104});
    const double open = r.coil_gap_m(coil_.number) / r.coil(coil_.number).armature.stroke_m;
    draw_armature(f, open);
    const double lifts = closed ? 9 : std::max(0.0, 8 * (1 - open));
    f.box(Material::kInsulation, {160, 2}, {184, 28}, 3);
    Shape& moving =
        f.line(Material::kSteel,
               std::array{Point{48, 23 - lifts}, Point{62, 22 - lifts}, Point{164, 18}}, 3.4, 3);
    moving.current_a = closed ? load : 0;
    Shape& fixed = f.line(Material::kSteel, std::array{Point{50, 7}, Point{164, 7}}, 3.4, 3);
    fixed.current_a = closed ? load : 0;
    f.disc(Material::kSilver, {54, 19 - lifts}, 2.8);
    f.disc(Material::kSilver, {54, 8}, 2.8);
    if (!closed && load != 0) f.spark({54, 12}, load);
    f.terminal("coil_a", {153, 104});
    f.terminal("coil_b", {167, 104});
    f.terminal("contact_a", {184, 18});
    f.terminal("contact_b", {184, 7});
    f.name_at({86, -14});
    draw_inside(f, open, r);
  }

  void report(Report& report, const Reader& r) const override {
    const RelayState& s = r.state(state_);
    report.append("relays")
        .text("id", name_)
        .count("pulls", s.pulls)
        .count("held", s.held.count())
        .count("chatters", s.chatter.count);
    report.say("Relays", fmt::format("{}: {}; pulls in at {}, drops out at {}.", name_,
                                     happened("pulled", s.pulls),
                                     format_quantity(pull_in_v(r.coil(coil_.number)), "V"),
                                     format_quantity(drop_out_v(r.coil(coil_.number)), "V")));
    s.margin.report(report, serves_.empty() ? name_ : serves_, name_, r);
    if (s.chatter.count > 0) {
      report.warn(fmt::format("{} chattered from {} on: made again {} within {} of breaking.",
                              name_, r.clock_text(s.chatter.first_at, 2),
                              counted(s.chatter.count, "time"),
                              format_quantity(to_seconds(Chatter::kSoon), "s")));
    }
    if (s.held.count() > 0) report.warn(s.held.sentence(name_, "pulling in"));
  }

  // Pitch and loudness: common practice, no source.
  std::vector<Voice> voices() const override {
    return {{Voice::Kind::kClick, located_kind(What::kSeats), 1700, 0.04, 0.4, 0.55},
            {Voice::Kind::kClick, located_kind(What::kReturns), 1250, 0.04, 0.3, 0.5}};
  }

 private:
  // What a large figure shows too: the flux and what it pulls with, and the gap that is left.
  void draw_inside(Figure& f, double open, const Reader& r) const {
    if (!f.wants_close()) return;
    const Figure::Close close(f);
    const circuit::Coil& coil = r.coil(coil_.number);
    const double gap_m = r.coil_gap_m(coil_.number);
    const double pull = pull_now_n(r, coil_.number);
    draw_flux(f, {21 - 4 * open, 36.5}, {186, 70}, 70, true, iron_share(r, coil_.number));
    if (pull > kLeastForce_n) {
      draw_arrow(f, Material::kForce, {-16, 72}, {9 - 5 * open, 72}, 1.4);
      f.label({-15, 71}, measure_text(to_tr("pull"), pull, "N"), {-24, 60});
    }
    const double load = circuit::load_n(coil.armature, gap_m, 0);
    f.label({-10, 84}, measure_text(to_tr("spring"), load, "N"), {-24, 98});
    f.label({30 - 4 * open, 79}, measure_text(to_tr("gap"), gap_m, "m"), {4, 50});
    f.label({184, 37}, to_tr("yoke"), {200, 42});
    f.label({186, 70}, to_tr("core"), {200, 62});
    f.label({166, 86}, measure_text(to_tr("winding"), told_a(r.coil_current_a(coil_.number)), "A"),
            {200, 84});
  }

  /// `open`: 1 at its open stop, 0 on the pole.
  static void draw_armature(Figure& f, double open) {
    constexpr double kSeated_rad = -0.0227, kOpens_rad = 0.1658;
    const Figure::Within hinge(f, {{22, 35}, kSeated_rad + kOpens_rad * open, 1});
    f.area(Material::kSteel,
           std::array{Point{-6, -6}, Point{44, -6}, Point{44, -1}, Point{3, 1}, Point{4, 56},
                      Point{-5, 56}, Point{-6, 0}},
           4);
    f.box(Material::kInsulation, {35, -19.5}, {40, -5}, 1);
    f.disc(Material::kBrass, {}, 3.5, 1);
    f.line(Material::kSteel, helix_of({-5, 50}, {-34, 56}, 5, 5), 1.6, 2);
  }

  void draw_next(Ctx& ctx) const {
    RelayState& s = ctx.state(state_);
    draw_film(ctx, contact_, s.faces, kFilmStream, s.draws);
  }

  std::string name_;
  circuit::Node contact_a_;
  circuit::Node contact_b_;
  std::string serves_;
  ContactFaces faces_;
  StateSlot<RelayState> state_;
  StateSlot<Surroundings> air_;
  int contact_ = -1;
  BuiltCoil coil_;
};

class RelayType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "relay with one make contact";
    d.stand = {Stand::Where::kColumn, 0, 0, "", ""};
    d.help = "Coil and armature that close a contact; pull-in and drop-out come out of its build.";
    declare_winding(d, true);
    declare_armature(d, true);
    d.quantity("makes_at", "m", 0.0, 0.1, "gap at which the contact makes and breaks");
    declare_contact(d, {});
    declare_stuck(d);
    d.text("serves", "", "loop or zone that it serves, for the report's margins; none: itself");
    declare_contact_care(d, 0.05, 1.0);
    declare_armature_care(d, {0.5, 4.0}, {1e-3, 4e-3});
    d.terminal("coil_a", "one end of the winding");
    d.terminal("coil_b", "other end of the winding");
    d.terminal("contact_a", "one side of the contact");
    d.terminal("contact_b", "other side of the contact");
    d.output("pulled", "1 when the contact makes, 0 when it breaks");
    declare_coil_readings(d);
    d.reading("closed", "", "1 while the contact conducts", Lane::kBar);
    d.reading("contact_resistance", "ohm", "resistance of the present or last closing");
    d.reading("contact_volts", "V", "voltage across the contact");
    d.reading("pull_in_volts", "V", "slowly raised voltage at the coil that pulls it in");
    d.reading("drop_out_volts", "V", "slowly lowered voltage at the coil that lets it go");
    d.reading("pulls", "1", "how often the contact has made");
    d.sum("spark_energy", "J", "energy of the contact's sparks since the start");
    declare_armature_events(d);
    declare_contact_events(d);
    d.called("pull", "seats");
    d.called("drop", "returns");
  }
  std::unique_ptr<const Part> make(Builder& b) const override { return std::make_unique<Relay>(b); }
};

}  // namespace

const PartType& relay_part() {
  static const RelayType type;
  return type;
}

}  // namespace sixty::models
