#include <fmt/format.h>

#include <array>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/part/contact_params.hpp"

namespace sixty::models {
namespace {

constexpr std::int64_t kTurn = 60;  // beats in a turn of the shaft it is made for
constexpr SimTime kBeat = kSecond;
enum Stream : std::uint32_t { kFilmStream, kTwiceStream, kRattleStream, kWaitStream };
enum Own : std::uint16_t { kSlidesOff = 1, kTouchesAgain, kPartsAgain, kRattlesOpen, kRattlesShut };

/// Of a blade without force. Source: common practice, no source.
constexpr double kLeastShut_s = 0.02;
constexpr double kMostShut_s = 0.08;
constexpr double kLeastApart_s = 0.01;
constexpr double kMostApart_s = 0.04;
constexpr double kRattles = 8;        // different ones: equal ones come again and can be reused
constexpr std::uint64_t kWaits = 64;  // of one, at the most

// Half a metre of flex with its clips. Source: common practice, no source.
constexpr double kLeadOhm = 0.02;

enum Command : std::uint16_t { kClean, kSetForce, kSetDwell, kClipLead, kTakeLeadOff };
enum Reading : std::size_t { kClosed, kCurrent, kOhm, kVolts, kSparkEnergy, kClosings, kEroded };

// Drawn at eight units to a millimetre. The contacts lie round the arbor in the order of their
// seconds.
constexpr double kStep_rad = 6 * kDegree;
constexpr double kFirstContact_rad = 45 * kDegree;
constexpr double kContactsApart_rad = 1.5 * kDegree;
constexpr double kArm = 97;
constexpr double kTips_x = 186, kBlock_x = 250;
constexpr double kOpenGap = 5;

struct ArmState {
  std::int64_t closings = 0;
  std::uint64_t draws = 0;
  double ohm = 0;  ///< of the last closing
  ContactFaces faces;
  std::int64_t closed = 0;   ///< it drags on the arbor
  Riding set;                ///< as the hand set it: rides so from the next time that it is open
  std::int64_t touches = 0;  ///< it lies on the arbor's pin, or would if it were free to
  double speed_m_per_s = 0;  ///< of its last touch
  std::uint64_t twice_draws = 0, rattle_draws = 0;
  std::uint64_t rattle = 0, waits = 0;  ///< which one it is, and how far it has come
  SimTime rattles_until = 0;
  std::int64_t lead = 0;  ///< a hand clips a lead across it at each of its seconds
};

class ContactArm final : public Part {
 public:
  explicit ContactArm(Builder& b)
      : name_(b.name()),
        blade_(b.node("blade")),
        anvil_(b.node("anvil")),
        radius_m_(b.number("radius")),
        erosion_m3_per_j_(b.number("erosion")),
        friction_(b.number("friction")),
        brush_s_(b.number("brushes_for")),
        touches_twice_(b.number("touches_twice")),
        rattle_s_(b.number("rattles_for")),
        stuck_(stuck_of(b)),
        faces_(contact_faces(b)),
        state_(b.state<ArmState>()),
        air_(b.taken<Surroundings>("surroundings")),
        riding_(b.state<Riding>()) {
    circuit::Contact contact;
    contact.a = blade_;
    contact.b = anvil_;
    contact.closed_ohm = faces_.film.ohm(0.5);
    contact.kind = contact_kind(b);
    contact.closed = stands_closed(stuck_, false);
    contact_ = b.add(contact);
    first_.make_at = std::llround(b.number("makes_at")) % kTurn;
    first_.break_at = (first_.make_at + std::llround(b.number("dwell"))) % kTurn;
    first_.drag_nm = drag_nm(faces_.force_n);
    b.ride("mounted_on", {0, first_, riding_});
  }

  void start(Ctx& ctx) const override {
    ArmState& s = ctx.state(state_) = ArmState{};
    s.faces = faces_;
    s.set = first_;
    ctx.state(riding_) = first_;
  }

  // A ride's value is the speed with which the shaft falls onto its place, in rad/s.
  void on_event(const Event& event, Ctx& ctx) const override {
    ArmState& s = ctx.state(state_);
    switch (event.kind) {
      case kRideMakes:
        s.closed = 1;
        touch(event.value * radius_m_, ctx, s);
        break;
      case kRideBreaks:
        s.closed = 0;
        part(ctx, s);
        touch_twice(ctx, s);
        break;
      case kTouchesAgain:
        touch(s.speed_m_per_s, ctx, s);
        ctx.schedule(ctx.now() + kBeat, kPartsAgain, Phase::kContact);
        break;
      case kSlidesOff:
      case kPartsAgain:
        part(ctx, s);
        break;
      case kRattlesOpen:
      case kRattlesShut:
        rattle(event.kind == kRattlesShut, ctx, s);
        break;
      default:
        if (is_link_change(event)) {
          if (air_.valid()) tarnish(ctx.state(air_), s.faces);
        } else if (event.kind >= kCommandBase) {
          tend(event, ctx, s);
        }
        break;
    }
    // While it is closed, the shaft counts on what it weighs and where it opens.
    if (s.closed == 0) ctx.state(riding_) = s.set;
  }

  void on_rebuilt(Ctx& ctx) const override { stand(ctx, ctx.state(state_)); }

  double read(std::size_t reading, const Reader& r) const override {
    switch (reading) {
      case kClosed:
        return r.contact_conducts(contact_) ? 1 : 0;
      case kCurrent:
        return r.contact_current_a(contact_);
      case kOhm:
        return r.contact_ohm(contact_);
      case kVolts:
        return r.volts_between(blade_, anvil_);
      case kSparkEnergy:
        return r.spark_j(contact_);
      case kClosings:
        return static_cast<double>(r.state(state_).closings);
      default:
        return r.spark_j(contact_) * erosion_m3_per_j_;
    }
  }

  // The arm at its true angle; the springs that it presses together come from a block at the right.
  void draw(Figure& f, const Pose& at, const Reader& r) const override {
    const Figure::Within within(f, {at.at, 0, at.scale});
    const double contact_rad =
        kFirstContact_rad + kContactsApart_rad * static_cast<double>(first_.make_at);
    const double turn = contact_rad + at.turn_rad - static_cast<double>(first_.make_at) * kStep_rad;
    const double block_y = (contact_rad - 75 * kDegree) / kDegree * 2.4;
    const bool closed = r.contact_conducts(contact_);
    const double current = r.contact_current_a(contact_);
    draw_arm(f, turn);
    const Point end = polar(kArm, contact_rad);
    const double lower = block_y + 9;
    const double gap = closed ? 0 : kOpenGap;
    const Point tip{kTips_x, lower - 7 - gap};
    f.box(Material::kInsulation, {kBlock_x, block_y - 22}, {kBlock_x + 30, block_y + 24}, 3);
    Shape& blade = f.line(Material::kSteel,
                          std::array{Point{end.x + 6, end.y + (closed ? 3 : 0)}, tip,
                                     Point{kBlock_x + 4, block_y - 9}},
                          3, 4);
    blade.current_a = closed ? current : 0;
    Shape& anvil =
        f.line(Material::kSteel, std::array{Point{kTips_x - 6, lower}, Point{kBlock_x + 4, lower}},
               3.5, 3);
    anvil.current_a = closed ? current : 0;
    f.disc(Material::kSilver, tip + Point{0, 3}, 4, 2);
    f.disc(Material::kSilver, {kTips_x, lower - 3.5}, 4, 1);
    f.disc(Material::kBrass, {kBlock_x + 22, block_y - 9}, 6, 2);
    f.disc(Material::kBrass, {kBlock_x + 22, lower}, 6, 2);
    if (!closed && current != 0) f.spark({kTips_x, lower - 5}, current);
    f.terminal("blade", {kBlock_x + 22, block_y - 9});
    f.terminal("anvil", {kBlock_x + 22, lower});
    f.name_at({kBlock_x + 104, block_y - 12});
  }

  void report(Report& report, const Reader& r) const override {
    const ArmState& s = r.state(state_);
    Row& row = report.append("contacts").text("id", name_).count("closings", s.closings);
    if (s.closings > 0) {
      row.put("resistance_ohm", s.ohm, "ohm");
    } else {
      row.nothing("resistance_ohm");
    }
    row.put("spark_j", r.spark_j(contact_), "J");
    report.say("Contacts", sentence(s.closings, s.ohm, r.spark_j(contact_)));
  }

  // Two light blades. Pitch and loudness: common practice, no source.
  std::vector<Voice> voices() const override {
    return {{Voice::Kind::kTick, located_kind(circuit::What::kMakes), 3600, 0.015, 0.07},
            {Voice::Kind::kTick, located_kind(circuit::What::kBreaks), 3200, 0.015, 0.07}};
  }

 private:
  static void draw_arm(Figure& f, double turn_rad) {
    const Figure::Within arm(f, {{}, turn_rad, 1});
    f.area(Material::kBrass,
           std::array{Point{-7, 4}, Point{-4, -kArm}, Point{4, -kArm}, Point{7, 4}}, 5);
    f.disc(Material::kSilver, {0, -kArm}, 6.5, 2);
    f.disc(Material::kBrass, {}, 16, 3);
    f.disc(Material::kSteel, {}, 7, 1);
  }

  void touch(double speed_m_per_s, Ctx& ctx, ArmState& s) const {
    s.touches = 1;
    s.speed_m_per_s = speed_m_per_s;
    ++s.closings;
    stand(ctx, s);
    if (brush_s_ > 0) {
      ctx.schedule(ctx.now() + from_seconds(brush_s_), kSlidesOff, Phase::kContact);
    }
    if (rattle_s_ <= 0) return;
    s.rattles_until = ctx.now() + from_seconds(rattle_s_);
    s.rattle = static_cast<std::uint64_t>(ctx.draw(kRattleStream, s.rattle_draws++) * kRattles);
    s.waits = 0;
    rattle_on(kRattlesOpen, ctx, s);
  }

  void part(Ctx& ctx, ArmState& s) const {
    s.touches = 0;
    stand(ctx, s);
  }

  void stand(Ctx& ctx, ArmState& s) const {
    if (s.lead != 0 && s.closed != 0) {
      s.ohm = kLeadOhm;
      ctx.set_contact(contact_, true, kLeadOhm, 0);
      return;
    }
    const bool closes = stands_closed(stuck_, s.touches != 0);
    if (closes) s.ohm = closing_ohm(s.faces, ctx.draw(kFilmStream, s.draws++));
    ctx.set_contact(contact_, closes, closes ? s.ohm : 0, closes ? s.speed_m_per_s : 0);
  }

  // A burr, or a rebound of the arm: it touches for a beat, a beat later.
  void touch_twice(Ctx& ctx, ArmState& s) const {
    if (touches_twice_ == 0 || ctx.draw(kTwiceStream, s.twice_draws++) >= touches_twice_) return;
    ctx.schedule(ctx.now() + kBeat, kTouchesAgain, Phase::kContact);
  }

  // A blade without force does not come to rest at once.
  void rattle(bool shut, Ctx& ctx, ArmState& s) const {
    if (s.closed == 0) return;
    s.touches = shut ? 1 : 0;
    stand(ctx, s);
    rattle_on(shut ? kRattlesOpen : kRattlesShut, ctx, s);
  }

  // It lies still when it would part no more before its time is over.
  static void rattle_on(Own next, Ctx& ctx, ArmState& s) {
    const double least_s = next == kRattlesOpen ? kLeastShut_s : kLeastApart_s;
    const double most_s = next == kRattlesOpen ? kMostShut_s : kMostApart_s;
    const double share = ctx.draw(kWaitStream, s.rattle * kWaits + s.waits++ % kWaits);
    const SimTime at = ctx.now() + from_seconds(least_s + (most_s - least_s) * share);
    if (next == kRattlesOpen && at >= s.rattles_until) return;
    ctx.schedule(at, next, Phase::kContact);
  }

  void tend(const Event& event, Ctx& ctx, ArmState& s) const {
    const auto command = static_cast<std::uint16_t>(event.kind - kCommandBase);
    if (command == kClipLead || command == kTakeLeadOff) {
      s.lead = command == kClipLead ? 1 : 0;
      stand(ctx, s);
      return;
    }
    if (command == kSetDwell) {
      s.set.break_at = (s.set.make_at + std::llround(event.value)) % kTurn;
      return;
    }
    tend_contact(command, event.value, contact_, s.faces, ctx);
    s.set.drag_nm = drag_nm(s.faces.force_n);
  }

  double drag_nm(double force_n) const { return force_n * radius_m_ * friction_; }

  std::string sentence(std::int64_t closings, double ohm, double spark_j) const {
    const std::string closed = name_ + ": " + happened("closed", closings);
    if (closings == 0) return closed + ".";
    return fmt::format("{}, last through {}; {}.", closed, format_quantity(ohm, "ohm"),
                       spark_j > 0 ? "sparks took " + format_quantity(spark_j, "J") : "no sparks");
  }

  std::string name_;
  circuit::Node blade_;
  circuit::Node anvil_;
  double radius_m_;
  double erosion_m3_per_j_;
  double friction_;
  double brush_s_, touches_twice_, rattle_s_;
  Stuck stuck_;
  ContactFaces faces_;
  Riding first_;
  StateSlot<ArmState> state_;
  StateSlot<Surroundings> air_;
  StateSlot<Riding> riding_;
  int contact_ = -1;
};

class ContactArmType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "contact on the escape arbor";
    d.stand = {Stand::Where::kOnLink, 0, 0, "mounted_on", ""};
    d.help = "Closes at one beat of the minute and opens some beats later; drags while closed.";
    d.quantity("makes_at", "beat", 0, 59, "beat of the minute at which it closes").step = 1;
    d.quantity("dwell", "beat", 1, 59, "beats that it stays closed").step = 1;
    d.quantity("radius", "m", 0.001, 0.1, "distance of the contact from the arbor");
    d.quantity("friction", "1", 0, 2, "coefficient of friction against the arbor's turning");
    d.quantity("erosion", "m3/J", 0.0, 0.0, 1e-9, "metal lost to a joule of spark");
    d.quantity("brushes_for", "s", 0.0, 0.0, 1,
               "how long it touches when it is set too far out; 0: for the whole dwell",
               "a sound arm: not at all");
    d.quantity("touches_twice", "1", 0.0, 0.0, 1,
               "chance that it touches for another beat, a beat after it has parted",
               "a sound arm: never");
    d.quantity("rattles_for", "s", 0.0, 0.0, 1,
               "how long a blade without force goes on parting and touching again",
               "a sound blade: not at all");
    declare_stuck(d);
    declare_contact(d, {0.05, 0.015, 0.55, true, true});
    d.takes<Shaft>("mounted_on", "arbor that works it");
    d.terminal("blade", "moving side");
    d.terminal("anvil", "fixed side");
    declare_contact_care(d, 0.01, 0.5);
    ParamDecl dwell = in_steps_of(1, quantity_field("dwell", "beat", 2, 30, "beats closed"));
    d.command("set_dwell", "sets how long it stays closed", std::move(dwell)).sets = "dwell";
    d.command("clip_lead", "holds a lead across it at each of its seconds");
    d.command("take_lead_off", "leaves it to itself again");
    d.reading("closed", "", "1 while it conducts", Lane::kBar);
    d.reading("current", "A", "current from blade to anvil, also that of its spark");
    d.reading("resistance", "ohm", "resistance of the closed contact");
    d.reading("volts", "V", "voltage from blade to anvil");
    d.sum("spark_energy", "J", "energy of its sparks since the start");
    d.sum("closings", "1", "closings since the start");
    d.sum("eroded", "m3", "metal lost since the start");
    declare_contact_events(d);
    d.called("close", "makes");
    d.motion(kSlidesOff, "slides_off", "it has only brushed by");
    d.motion(kTouchesAgain, "touches_again", "it touches once more");
    d.motion(kPartsAgain, "parts_again", "and parts");
    d.motion(kRattlesOpen, "rattles_open", "a blade without force flies back");
    d.motion(kRattlesShut, "rattles_shut", "and touches again");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<ContactArm>(b);
  }
};

}  // namespace

const PartType& contact_arm_part() {
  static const ContactArmType type;
  return type;
}

}  // namespace sixty::models
