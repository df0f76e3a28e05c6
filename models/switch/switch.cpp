#include <fmt/format.h>

#include <array>
#include <numeric>
#include <string>
#include <vector>

#include "sim/part/contact_params.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

enum Command : std::uint16_t { kOpen, kClose, kPress, kRelease, kHold, kClean };
enum Own : std::uint16_t { kLetGo = 1 };
enum Reading : std::size_t { kClosed, kCurrent, kVolts, kSparkEnergy };

constexpr std::uint32_t kFilmStream = 0;

constexpr std::size_t kMostPoles = 8;

/// "a", "a_2", "a_3" ... and likewise b.
std::string terminal_of(char side, std::size_t pole) {
  return pole == 0 ? std::string(1, side) : fmt::format("{}_{}", side, pole + 1);
}

struct SwitchState {
  std::int64_t closed = 0;
  std::uint64_t draws = 0;
  EventHandle let_go;  ///< when a hold will be over
  ContactFaces faces;
};

class Switch final : public Part {
 public:
  explicit Switch(Builder& b)
      : a_(b.node("a")),
        b_(b.node("b")),
        ohm_(b.number("contact_resistance")),
        speed_(b.number("closing_speed")),
        starts_closed_(b.number("starts") != 0),
        stuck_(stuck_of(b)),
        faces_(contact_faces(b, ohm_)),
        state_(b.state<SwitchState>()),
        air_(b.taken<Surroundings>("surroundings")) {
    const auto poles = static_cast<std::size_t>(b.number("poles"));
    for (std::size_t pole = 0; pole < poles; ++pole) {
      circuit::Contact c;
      c.a = b.node(terminal_of('a', pole));
      c.b = b.node(terminal_of('b', pole));
      c.closed_ohm = ohm_;
      c.closed = stands_closed(stuck_, starts_closed_);
      c.kind = contact_kind(b);
      contacts_.push_back(b.add(c));
    }
  }

  void start(Ctx& ctx) const override {
    SwitchState& s = ctx.state(state_);
    s.closed = starts_closed_ ? 1 : 0;
    s.faces = faces_;
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    SwitchState& s = ctx.state(state_);
    if (is_link_change(event)) {
      tarnish(ctx.state(air_), s.faces);
      return;
    }
    switch (event.kind) {
      case kCommandBase + kClean:
        clean(s.faces);
        break;
      case kCommandBase + kOpen:
      case kCommandBase + kRelease:
      case kLetGo:
        work(false, ctx, s);
        break;
      case kCommandBase + kHold:
        work(true, ctx, s);
        s.let_go = ctx.schedule(ctx.now() + from_seconds(event.value), kLetGo, Phase::kCommand);
        break;
      default:
        work(true, ctx, s);
        break;
    }
  }

  void on_rebuilt(Ctx& ctx) const override { stand(ctx, ctx.state(state_)); }

  // A key on the rail: pressed, its knob stands lower and the springs touch.
  void draw(Figure& f, const Pose& at, const Reader& r) const override {
    const Figure::Within within(f, at);
    const bool shut = r.state(state_).closed != 0;
    const double current = r.contact_current_a(contacts_[0]);
    const double down = shut ? 9 : 0;
    f.box(Material::kInsulation, {-24, 8}, {24, 18}, 2);
    f.line(Material::kBrass, std::array{Point{-22, 7}, Point{-6, 7}, Point{14, 4}}, 4, 2)
        .current_a = current;
    f.line(Material::kSteel, std::array{Point{22, 7}, Point{22, -9}, Point{-10, -5.5 + down}}, 3.5,
           3)
        .current_a = current;
    f.line(Material::kSteel, std::array{Point{-4, -9 + down}, Point{-4, -20 + down}}, 4, 2);
    f.area(Material::kIvory,
           std::array{Point{-14, -20 + down}, Point{6, -20 + down}, Point{8, -30 + down},
                      Point{-16, -30 + down}},
           3);
    if (starts_closed_)
      f.handle(shut ? "open" : "close", "", {-24, -32}, {24, 18});
    else
      f.handle("press", "release", {-24, -32}, {24, 18});
    f.terminal("a", {-22, 8});
    f.terminal("b", {22, 8});
    f.name_at({0, 24});
  }

  double read(std::size_t reading, const Reader& r) const override {
    switch (reading) {
      case kClosed:
        return r.contact_conducts(contacts_[0]) ? 1 : 0;
      case kCurrent:
        return r.contact_current_a(contacts_[0]);
      case kVolts:
        return r.volts_between(a_, b_);
      default:
        return std::accumulate(contacts_.begin(), contacts_.end(), 0.0,
                               [&](double sum, int c) { return sum + r.spark_j(c); });
    }
  }

  // Pitch and loudness: common practice, no source.
  std::vector<Voice> voices() const override {
    return {{Voice::Kind::kClick, located_kind(circuit::What::kMakes), 2400, 0.03, 0.3},
            {Voice::Kind::kClick, located_kind(circuit::What::kBreaks), 2000, 0.03, 0.3}};
  }

 private:
  // The hand is now at this; whatever it was to do later it does no more.
  void work(bool close, Ctx& ctx, SwitchState& s) const {
    ctx.cancel(s.let_go);
    s.let_go = {};
    if ((s.closed != 0) == close) {
      refuse(ctx, close);
      return;
    }
    s.closed = close ? 1 : 0;
    stand(ctx, s);
  }

  void stand(Ctx& ctx, SwitchState& s) const {
    const bool closed = stands_closed(stuck_, s.closed != 0);
    const bool draws = closed && s.faces.film_ohm > 0;
    for (const int contact : contacts_) {
      const double ohm = draws ? closing_ohm(s.faces, ctx.draw(kFilmStream, s.draws++)) : ohm_;
      ctx.set_contact(contact, closed, ohm, speed_);
    }
  }

  static void refuse(Ctx& ctx, bool close) {
    if (!ctx.full_trace()) return;
    const double wanted = close ? 1 : 0;
    const std::array<Condition, 1> conditions = {
        Condition{to_tr("stood otherwise before"), wanted, 1 - wanted, false}};
    ctx.because(false, conditions);
  }

  circuit::Node a_;
  circuit::Node b_;
  double ohm_;
  double speed_;
  bool starts_closed_;
  Stuck stuck_;
  ContactFaces faces_;
  StateSlot<SwitchState> state_;
  StateSlot<Surroundings> air_;
  std::vector<int> contacts_;  ///< one of each pole
};

class SwitchType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "hand-worked switch or key";
    d.stand = {Stand::Where::kRail, 0, 0, "", ""};
    d.help = "A contact, or several at once, that a hand opens and closes.";
    d.choice("starts", {"open", "closed"},
             "how it stands at the start; what starts open is a key that springs back");
    d.quantity("contact_resistance", "ohm", 0.02, 1e-4, 1e6,
               "resistance when closed, without film");
    d.quantity("closing_speed", "m/s", 0.3, 0.001, 10,
               "speed of the closing blade, for its bounce");
    declare_contact(d, {0.3, 0.0, 0.55, false, false});
    declare_stuck(d);
    d.count("poles", 1, 1, static_cast<std::int64_t>(kMostPoles),
            "contacts that one hand works together");
    for (std::size_t pole = 0; pole < kMostPoles; ++pole) {
      const std::string of = pole == 0 ? "" : fmt::format(" of pole {}", pole + 1);
      d.terminal(terminal_of('a', pole), "one side" + of);
      d.terminal(terminal_of('b', pole), "other side" + of);
    }
    d.command("open", "opens it");
    d.command("close", "closes it");
    d.command("press", "presses the key, until it is released");
    d.command("release", "lets the key go");
    d.command("hold", "presses the key for so long and lets it go",
              quantity_field("for", "s", 0.001, 86400, "how long"));
    d.command("clean", "cleans the contact: its film is that of a clean one again");
    d.reading("closed", "", "1 while it conducts", Lane::kBar);
    d.reading("current", "A", "current from a to b, also that of its spark; of the first pole");
    d.reading("volts", "V", "voltage from a to b; of the first pole");
    d.sum("spark_energy", "J", "energy of all its sparks since the start");
    declare_contact_events(d);
    d.event(kLetGo, "let_go", "the hand that held the key lets it go");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<Switch>(b);
  }
};

}  // namespace

const PartType& switch_part() {
  static const SwitchType type;
  return type;
}

}  // namespace sixty::models
