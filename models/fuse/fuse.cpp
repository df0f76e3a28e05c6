#include <fmt/format.h>

#include <array>

#include "sim/base/units.hpp"
#include "sim/part/contact_params.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

enum Command : std::uint16_t { kReplace, kTakeOut };
enum Reading : std::size_t { kCurrent, kVolts, kHeat, kWhole };
enum Entry : std::uint16_t { kBlew };

constexpr auto kMelts =
    static_cast<std::uint16_t>(kLocatedBase + static_cast<std::uint16_t>(circuit::What::kMelts));

struct FuseState {
  std::int64_t blown = 0;
};

class FusePart final : public Part {
 public:
  explicit FusePart(Builder& b)
      : name_(b.name()),
        a_(b.node("a")),
        b_(b.node("b")),
        rated_a_(b.number("rated_current")),
        ohm_(b.number("resistance")),
        state_(b.state<FuseState>()) {
    circuit::Contact wire;
    wire.a = a_;
    wire.b = b_;
    wire.closed_ohm = ohm_;
    wire.closed = true;
    wire.kind.sparks = true;
    wire.kind.opening_speed_m_per_s = b.number("parting_speed");
    contact_ = b.add(wire);
    fuse_ =
        b.add(circuit::Fuse{contact_, rated_a_ * b.number("carries"), b.number("time_constant")});
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    FuseState& s = ctx.state(state_);
    if (event.kind == kCommandBase + kTakeOut) {
      s.blown = 1;
      ctx.set_contact(contact_, false, ohm_, 0);
    }
    if (event.kind != kCommandBase + kReplace) return;
    const bool blown = s.blown != 0;
    const std::array<Condition, 1> conditions = {
        Condition{to_tr("it has blown or is out"), blown ? 1.0 : 0.0, 1, blown}};
    ctx.because(blown, conditions);
    if (!blown) return;
    s.blown = 0;
    ctx.set_contact(contact_, true, ohm_, 0);
  }

  void on_located(const circuit::Located& happened, Ctx& ctx) const override {
    if (happened.what != circuit::What::kMelts) return;
    ctx.state(state_).blown = 1;
    ctx.journal(kBlew);
    ctx.set_contact(contact_, false, ohm_, 0);
  }

  double read(std::size_t reading, const Reader& r) const override {
    switch (reading) {
      case kCurrent:
        return r.contact_current_a(contact_);
      case kVolts:
        return r.volts_between(a_, b_);
      case kHeat:
        return r.fuse_heat(fuse_);
      default:
        return r.state(state_).blown != 0 ? 0 : 1;
    }
  }

  void draw(Figure& f, const Pose& at, const Reader& r) const override {
    const Figure::Within within(f, at);
    const double current = r.contact_current_a(contact_);
    f.box(Material::kGlass, {-8, -26}, {8, 26}, 2);
    if (r.state(state_).blown == 0) {
      f.line(Material::kCopper, std::array{Point{0, -26}, Point{0, 26}}, 2).current_a = current;
    } else {
      f.line(Material::kCopper, std::array{Point{0, -26}, Point{2, -9}}, 2);
      f.line(Material::kCopper, std::array{Point{-2, 10}, Point{0, 26}}, 2);
      if (current != 0) f.spark({0, 0}, current);
    }
    f.box(Material::kBrass, {-10, -36}, {10, -22}, 2);
    f.box(Material::kBrass, {-10, 22}, {10, 36}, 2);
    // Its foot is led out sideways, so that its wire goes up beside the glass.
    f.box(Material::kBrass, {9, 27}, {17, 31}, 1);
    f.disc(Material::kBrass, {17, 29}, 2.6, 1);
    if (r.state(state_).blown != 0) f.handle("replace", "", {-10, -36}, {10, 36});
    f.terminal("a", {0, -36});
    f.terminal("b", {17, 29});
    f.name_at({0, 44});
  }

  void report(Report& report, const Reader& r) const override {
    const std::vector<JournalEntry> blown = r.journal();
    Row& row = report.append("fuses")
                   .text("id", name_)
                   .count("blown", static_cast<std::int64_t>(blown.size()));
    row.flag("whole", r.state(state_).blown == 0);
    if (blown.empty()) return;
    const std::string often =
        blown.size() > 1 ? fmt::format("{} times, the last ", blown.size()) : "";
    report.warn(fmt::format(
        "{}: the fuse of {} blew {}at {}. Find the reason before it is replaced, "
        "and never by a bigger one.",
        name_, format_quantity(rated_a_, "A"), often, r.clock_text(blown.back().at, 2)));
  }

  // The wire parts with a snap. Pitch and loudness: from memory.
  std::vector<Voice> voices() const override {
    return {{Voice::Kind::kClick, kMelts, 3000, 0.05, 0.6}};
  }

 private:
  std::string name_;
  circuit::Node a_;
  circuit::Node b_;
  double rated_a_;
  double ohm_;
  StateSlot<FuseState> state_;
  int contact_ = -1;
  int fuse_ = -1;
};

class FuseType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "fuse";
    d.stand = {Stand::Where::kRail, 0, 0, "", ""};
    d.help = "A wire that melts when it has carried too much for too long.";
    d.quantity("rated_current", "A", 0.01, 100, "what it is marked with");
    d.quantity("carries", "1", 1.5, 1.05, 4, "least melting current over the rated one",
               "chosen to lie within the time-lag gates of IEC 60127-2, from memory");
    d.quantity("time_constant", "s", 4.5, 1e-3, 1e3, "of the wire's warming and cooling",
               "chosen to lie within the time-lag gates of IEC 60127-2, from memory");
    d.quantity("resistance", "ohm", 1e-4, 100, "of the wire and its holder");
    d.quantity("parting_speed", "m/s", 0.5, 0.01, 10, "how fast its arc is drawn out");
    d.terminal("a", "one side");
    d.terminal("b", "other side");
    d.command("replace", "puts a new one of the same kind in for a blown one");
    d.command("take_out", "takes it out, or leaves a blown one in its holder");
    d.reading("current", "A", "current from a to b", Lane::kCurve);
    d.reading("volts", "V", "voltage from a to b");
    d.reading("heat", "1", "share of the heat that melts it").told = Told::kShare;
    d.reading("whole", "", "1 until it has blown");
    d.motion(kMelts, "melts", "the wire melts");
    declare_contact_events(d);
    d.called("blow", "melts");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<FusePart>(b);
  }
};

}  // namespace

const PartType& fuse_part() {
  static const FuseType type;
  return type;
}

}  // namespace sixty::models
