#include <array>

#include "sim/part/contact_params.hpp"

namespace sixty::models {
namespace {

enum Command : std::uint16_t { kOpen, kClose };
enum Reading : std::size_t { kClosed, kCurrent, kVolts, kSparkEnergy };

constexpr std::uint32_t kFilmStream = 0;

struct SwitchState {
  std::int64_t closed = 0;
  std::uint64_t draws = 0;
};

class Switch final : public Part {
 public:
  explicit Switch(Builder& b)
      : a_(b.node("a")),
        b_(b.node("b")),
        ohm_(b.number("contact_resistance")),
        speed_(b.number("closing_speed")),
        starts_closed_(b.number("starts") != 0),
        has_film_(b.number("film") > 0),
        film_(ohm_, b.number("film"), b.number("film_spread")),
        state_(b.state<SwitchState>()) {
    circuit::Contact c;
    c.a = a_;
    c.b = b_;
    c.closed_ohm = ohm_;
    c.closed = starts_closed_;
    c.kind = contact_kind(b);
    contact_ = b.add(c);
  }

  void start(Ctx& ctx) const override { ctx.state(state_).closed = starts_closed_ ? 1 : 0; }

  void on_event(const Event& event, Ctx& ctx) const override {
    const bool close = event.kind == kCommandBase + kClose;
    if (!close && event.kind != kCommandBase + kOpen) return;
    SwitchState& s = ctx.state(state_);
    if ((s.closed != 0) == close) {
      refuse(ctx, close);
      return;
    }
    s.closed = close ? 1 : 0;
    const bool draws = close && has_film_;
    const double ohm = draws ? film_.ohm(ctx.draw(kFilmStream, s.draws++)) : ohm_;
    ctx.set_contact(contact_, close, ohm, speed_);
  }

  double read(std::size_t reading, const Reader& r) const override {
    switch (reading) {
      case kClosed:
        return r.contact_conducts(contact_) ? 1 : 0;
      case kCurrent:
        return r.contact_current_a(contact_);
      case kVolts:
        return r.volts_between(a_, b_);
      default:
        return r.spark_j(contact_);
    }
  }

 private:
  static void refuse(Ctx& ctx, bool close) {
    if (!ctx.full_trace()) return;
    const double wanted = close ? 1 : 0;
    const std::array<Condition, 1> conditions = {
        Condition{"stood otherwise before", wanted, 1 - wanted, false}};
    ctx.because(false, conditions);
  }

  circuit::Node a_;
  circuit::Node b_;
  double ohm_;
  double speed_;
  bool starts_closed_;
  bool has_film_;
  ContactFilm film_;
  StateSlot<SwitchState> state_;
  int contact_ = -1;
};

class SwitchType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "hand-worked switch or key";
    d.help = "A contact that a hand opens and closes.";
    d.choice("starts", {"open", "closed"}, "how it stands at the start");
    d.quantity("contact_resistance", "ohm", 0.02, 1e-4, 1e6,
               "resistance when closed, without film");
    d.quantity("closing_speed", "m/s", 0.3, 0.001, 10,
               "speed of the closing blade, for its bounce");
    declare_contact(d, {0.3, 0.0, 0.55, false, false});
    d.terminal("a", "one side");
    d.terminal("b", "other side");
    d.command("open", "opens it");
    d.command("close", "closes it, or presses the key and holds it");
    d.reading("closed", "", "1 while it conducts");
    d.reading("current", "A", "current from a to b, also that of its spark");
    d.reading("volts", "V", "voltage from a to b");
    d.reading("spark_energy", "J", "energy of its sparks since the start");
    declare_contact_events(d);
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
