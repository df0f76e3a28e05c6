#include <fmt/format.h>

#include <cmath>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/part/contact_params.hpp"

namespace sixty::models {
namespace {

constexpr std::int64_t kTurn = 60;  // beats in a turn of the shaft it is made for
constexpr std::uint32_t kFilmStream = 0;

enum Command : std::uint16_t { kClean, kSetForce, kSetDwell };
enum Reading : std::size_t { kClosed, kOhm, kVolts, kSparkEnergy, kClosings, kEroded };

struct ArmState {
  std::int64_t closings = 0;
  std::uint64_t draws = 0;
  double ohm = 0;  ///< of the last closing
  ContactFaces faces;
  std::int64_t closed = 0;  ///< it drags on the arbor
  Riding set;               ///< as the hand set it: rides so from the next time that it is open
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
        faces_(contact_faces(b)),
        state_(b.state<ArmState>()),
        air_(b.taken<Surroundings>("surroundings")),
        riding_(b.state<Riding>()) {
    circuit::Contact contact;
    contact.a = blade_;
    contact.b = anvil_;
    contact.closed_ohm = faces_.film.ohm(0.5);
    contact.kind = contact_kind(b);
    contact_ = b.add(contact);
    first_.make_at = std::llround(b.number("makes_at")) % kTurn;
    first_.break_at = (first_.make_at + std::llround(b.number("dwell"))) % kTurn;
    first_.drag_nm = drag_nm(faces_.force_n);
    b.ride("mounted_on", {0, first_, riding_});
  }

  void start(Ctx& ctx) const override {
    ctx.state(state_) = ArmState{0, 0, 0, faces_, 0, first_};
    ctx.state(riding_) = first_;
  }

  // A ride's value is the speed with which the shaft falls onto its place, in rad/s.
  void on_event(const Event& event, Ctx& ctx) const override {
    ArmState& s = ctx.state(state_);
    if (event.kind == kRideMakes) {
      ++s.closings;
      s.closed = 1;
      s.ohm = s.faces.film.ohm(ctx.draw(kFilmStream, s.draws++));
      ctx.set_contact(contact_, true, s.ohm, event.value * radius_m_);
    } else if (event.kind == kRideBreaks) {
      s.closed = 0;
      ctx.set_contact(contact_, false, 0, 0);
    } else if (is_link_change(event)) {
      tarnish(ctx.state(air_), s.faces);
    } else if (event.kind >= kCommandBase) {
      tend(event, ctx, s);
    }
    // While it is closed, the shaft counts on what it weighs and where it opens.
    if (s.closed == 0) ctx.state(riding_) = s.set;
  }

  double read(std::size_t reading, const Reader& r) const override {
    switch (reading) {
      case kClosed:
        return r.contact_conducts(contact_) ? 1 : 0;
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

 private:
  void tend(const Event& event, Ctx& ctx, ArmState& s) const {
    const auto command = static_cast<std::uint16_t>(event.kind - kCommandBase);
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
    d.help = "Closes at one beat of the minute and opens some beats later; drags while closed.";
    d.quantity("makes_at", "beat", 0, 59, "beat of the minute at which it closes").step = 1;
    d.quantity("dwell", "beat", 1, 59, "beats that it stays closed").step = 1;
    d.quantity("radius", "m", 0.001, 0.1, "distance of the contact from the arbor");
    d.quantity("friction", "1", 0, 2, "coefficient of friction against the arbor's turning");
    d.quantity("erosion", "m3/J", 0.0, 0.0, 1e-9, "metal lost to a joule of spark");
    declare_contact(d, {0.05, 0.015, 0.55, true, true});
    d.takes<Shaft>("mounted_on", "arbor that works it");
    d.terminal("blade", "moving side");
    d.terminal("anvil", "fixed side");
    declare_contact_care(d, 0.01, 0.5);
    ParamDecl dwell = in_steps_of(1, quantity_field("dwell", "beat", 2, 30, "beats closed"));
    d.command("set_dwell", "sets how long it stays closed", std::move(dwell));
    d.reading("closed", "", "1 while it conducts");
    d.reading("resistance", "ohm", "resistance of the closed contact");
    d.reading("volts", "V", "voltage from blade to anvil");
    d.reading("spark_energy", "J", "energy of its sparks since the start");
    d.reading("closings", "1", "closings since the start");
    d.reading("eroded", "m3", "metal lost since the start");
    declare_contact_events(d);
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
