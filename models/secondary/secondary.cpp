#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/part/coil_params.hpp"
#include "sim/part/figure_pieces.hpp"
#include "sim/part/margin.hpp"
#include "sim/part/missed.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

using circuit::What;

constexpr std::int64_t kDialMinutes = 720;  // twelve hours
constexpr std::uint32_t kBackstopStream = 0;
constexpr double kAlwaysHolds_m_per_s = 10;
constexpr int kWheelTeeth = 60;
constexpr double kLeastForce_n = 0.01;   // less is not drawn
constexpr double kBackstopSpread = 0.1;  // of the logarithm; common practice, no source

enum Command : std::uint16_t { kSet, kStep, kCare };
enum OwnEvent : std::uint16_t { kBegins };
enum Reading : std::size_t { kShown = kCoilReadings, kError, kSteps, kPullIn, kOffMaster };

struct SecondaryState {
  std::int64_t shown = 0;  ///< minutes, 0 .. kDialMinutes - 1
  std::int64_t steps = 0;
  std::int64_t missed = 0;
  std::int64_t extra = 0;
  /// Minute that has been accounted for: of the last step, or the one before those that count.
  std::int64_t last = 0;
  /// A minute that had begun before the scene did may have had its impulse: none is missed in it.
  std::int64_t excused = 0;
  std::int64_t ahead = 0;     ///< minutes shown more than due, as of `last`
  std::int64_t gathered = 0;  ///< the pawl has gone over a tooth and not yet moved the wheel
  LeastMargin margin;
  MissedMinutes missed_at;
  std::int64_t last_at = 0;  ///< minute of true time to which `last` belongs
  std::uint64_t backstop_draws = 0;
  double seat_m_per_s = 0;  ///< of the armature, in its last stroke
};

/// The shorter way round the dial, as whoever sets it sees it: between 6 h slow and 6 h fast.
std::int64_t nearer_way(std::int64_t minutes) {
  return floor_mod(minutes + kDialMinutes / 2, kDialMinutes) - kDialMinutes / 2;
}

class Secondary final : public Part {
 public:
  explicit Secondary(Builder& b)
      : name_(b.name()),
        loop_(b.value("loop").text),
        wrong_min_(static_cast<std::int64_t>(b.number("wrong_at_start") / 60)),
        due_at_(static_cast<std::int64_t>(b.number("due_at"))),
        state_(b.state<SecondaryState>()),
        shaft_(b.taken<Shaft>("compared_with")),
        backstop_m_per_s_(b.number("backstop_holds")),
        coil_(add_coil(b, coil_of(b, b.node("a"), b.node("b")))) {}

  void start(Ctx& ctx) const override { ctx.schedule(ctx.now(), kBegins, Phase::kCommand); }

  void on_event(const Event& event, Ctx& ctx) const override {
    SecondaryState& s = ctx.state(state_);
    if (is_link_change(event)) {
      coil_.follow(ctx);
      return;
    }
    switch (event.kind) {
      case kBegins:
        begin(s, ctx.reader());
        break;
      case kCommandBase + kSet:
        set(s, static_cast<std::int64_t>(event.value / 60));
        // Whoever sets a dial has made good for whole turns too, whichever way the hands went.
        s.ahead += nearer_way(gained_min(ctx.reader())) - gained_min(ctx.reader());
        break;
      case kCommandBase + kStep:
        set(s, s.shown + 1);
        break;
      default:
        tend(event, ctx, s);
        break;
    }
  }

  void on_rebuilt(Ctx& ctx) const override { ctx.state(state_).margin.forget_build(); }

  void on_located(const circuit::Located& happened, Ctx& ctx) const override {
    SecondaryState& s = ctx.state(state_);
    switch (happened.what) {
      case What::kStarts:
        s.margin.drove(happened, ctx.reader().coil(coil_.number), 0, ctx.now());
        break;
      case What::kSeats:
        s.gathered = 1;
        s.seat_m_per_s = std::fabs(happened.speed_m_per_s);
        break;
      case What::kReturns:
        if (s.gathered == 0) break;
        step(s, ctx);
        if (runs_on(s, ctx)) step(s, ctx);
        break;
      case What::kHeld:
        s.margin.drove(happened, ctx.reader().coil(coil_.number), 0, ctx.now());
        explain_held(happened, ctx);
        break;
      default:
        break;
    }
  }

  double read(std::size_t reading, const Reader& r) const override {
    const SecondaryState& s = r.state(state_);
    switch (reading) {
      case kShown:
        return static_cast<double>(s.shown) * 60;
      case kError:
        return static_cast<double>(error_min(r));
      case kOffMaster:
        return static_cast<double>((s.ahead - waiting(r)) % kDialMinutes);
      case kSteps:
        return static_cast<double>(s.steps);
      case kPullIn:
        return pull_in_v(r.coil(coil_.number));
      default:
        return read_coil(r, coil_, reading);
    }
  }

  // Its dial, a hundred units in radius.
  void draw(Figure& f, const Pose& at, const Reader& r) const override {
    const Figure::Within within(f, at);
    f.disc(Material::kSlate, {}, 100, 8);
    f.disc(Material::kIvory, {}, 90, 0);
    draw_movement(f, r);
    for (int k = 0; k < 12; ++k) {
      const double a = k * kPi / 6;
      f.line(Material::kInk, std::array{polar(k % 3 == 0 ? 66 : 74, a), polar(84, a)},
             k % 3 == 0 ? 6 : 4);
    }
    const double minute = static_cast<double>(r.state(state_).shown);
    const auto hand = [&](double turn_rad, double length, double width) {
      f.line(Material::kInk, std::array{polar(-18, turn_rad), polar(length, turn_rad)}, width, 2);
    };
    hand(minute / 720 * 2 * kPi, 48, 9);
    hand(minute / 60 * 2 * kPi, 76, 6);
    f.disc(Material::kBrass, {}, 6);
    draw_measures(f, r);
    if (const std::int64_t error = error_min(r); error != 0) {
      // Where the minute hand should stand.
      const double right = (minute - static_cast<double>(error)) / 60 * 2 * kPi;
      f.line(Material::kInk, std::array{polar(-18, right), polar(76, right)}, 5).ghost = true;
      f.remark(error < 0 ? Remark::Lean::kLow : Remark::Lean::kHigh, verdict(error), {}, 100);
    }
    f.terminal("a", {-26, 95});
    f.terminal("b", {26, 95});
    f.name_at({0, 100});
  }

  void report(Report& report, const Reader& r) const override {
    const SecondaryState& s = r.state(state_);
    s.margin.report(report, loop_.empty() ? name_ : "loop " + loop_, name_, r);
    Row& row = report.append("secondaries").text("id", name_).text("loop", loop_);
    row.count("steps", s.steps);
    if (!shaft_.valid()) {
      row.nothing("missed").nothing("extra").nothing("error_min");
      report.say(kTimeKeptHeading, fmt::format("{}: {}.", label(), counted(s.steps, "step")));
      return;
    }
    const std::int64_t missed = s.missed + waiting(r);
    const std::int64_t error = error_min(r);
    row.count("missed", missed).count("extra", s.extra).count("error_min", error);
    const std::int64_t master = master_min(r);
    const std::string of_master =
        master == 0 ? "" : fmt::format(" (the master's impulses are {})", verdict(master));
    const std::string sentence =
        fmt::format("{}: {}{}; {}, {} missed, {} too many.", label(), told(gained_min(r)),
                    of_master, counted(s.steps, "step"), missed, s.extra);
    report.say(kTimeKeptHeading, sentence);
    MissedMinutes until_now = s.missed_at;
    until_now.add_after(s.last_at, waiting(r));
    report.missed(label() + ": missed its minute", until_now.text(r));
    if (error != 0 || missed > 0 || s.extra > 0) report.warn(sentence);
  }

  // Pitch and loudness: common practice, no source.
  std::vector<Voice> voices() const override {
    return {{Voice::Kind::kClick, located_kind(What::kSeats), 900, 0.05, 0.16, 0.4},
            {Voice::Kind::kClick, located_kind(What::kReturns), 700, 0.05, 0.1, 0.25}};
  }

 private:
  // What a large figure shows too: the dial cut open over the coil, with the armature and the wheel
  // that it moves.
  void draw_movement(Figure& f, const Reader& r) const {
    if (!f.wants_close()) return;
    const Figure::Close close(f);
    std::vector<Point> window = arc_of({}, 82, 0.58 * kPi, 1.42 * kPi, 30);
    f.area(Material::kHollow, window);
    const double minute = static_cast<double>(r.state(state_).shown);
    {
      const Figure::Within wheel(f, {{40, 50}, minute / 60 * 2 * kPi, 1});
      std::vector<Point> outer, inner;
      for (int k = 0; k < kWheelTeeth; ++k) {
        const double a = k * 2 * kPi / kWheelTeeth;
        const double step = 2 * kPi / kWheelTeeth;
        for (const auto& [radius, share] : {std::pair(17.5, 0.0), std::pair(20.0, 0.05)}) {
          outer.push_back(polar(radius, a + share * step));
          inner.push_back(polar(12, a + share * step));
        }
      }
      f.band(Material::kBrass, outer, inner, 2);
      f.disc(Material::kBrass, {}, 4, 1);
    }
    f.area(Material::kIron,
           std::array{Point{-62, 25}, Point{10, 25}, Point{10, 32}, Point{-54, 32}, Point{-54, 45},
                      Point{-2, 45}, Point{-2, 56}, Point{-62, 56}},
           2);
    const double current = r.coil_current_a(coil_.number);
    draw_winding(f, {-50, 34}, {-8, 45}, 1.7, current);
    draw_winding(f, {-50, 56}, {-8, 67}, 1.7, current);
    const double gap_m = r.coil_gap_m(coil_.number);
    const double open = gap_m / r.coil(coil_.number).armature.stroke_m;
    {
      const Figure::Within armature(f, {{7, 27}, -0.16 * open, 1});
      f.box(Material::kSteel, {-4, -3}, {3, 44}, 2);
      f.line(Material::kSteel, std::array{Point{0, 41}, Point{16, 36}}, 2, 2);
      f.disc(Material::kBrass, {}, 2.4, 1);
    }
    draw_flux(f, {-58, 28.5}, {7 + 3 * open, 50.5}, 50.5, false, iron_share(r, coil_.number));
  }

  /// In front of the hands.
  void draw_measures(Figure& f, const Reader& r) const {
    if (!f.wants_close()) return;
    const Figure::Close close(f);
    const double gap_m = r.coil_gap_m(coil_.number);
    f.label({7, 62}, measure_text(to_tr("gap"), gap_m, "m"), {112, 74});
    const double current = told_a(r.coil_current_a(coil_.number));
    f.label({-48, 62}, measure_text(to_tr("winding"), current, "A"), {-112, 62});
    f.label({40, 50}, to_tr("minute wheel"), {112, 40});
    const double pull = pull_now_n(r, coil_.number);
    if (pull < kLeastForce_n) return;
    draw_arrow(f, Material::kForce, {32, 27}, {13, 27}, 1.4);
    f.label({32, 27}, measure_text(to_tr("pull"), pull, "N"), {112, 12});
  }

  /// Minute of the master whose impulse was the last to be due.
  std::int64_t last_due(const Reader& r) const {
    if (!turns(r)) return -1;
    const Shaft& shaft = r.state(shaft_);
    return shaft.turns_past(due_at_, shaft.position) - 1;
  }

  /// There is a master, and it has said how it turns.
  bool turns(const Reader& r) const { return shaft_.valid() && r.state(shaft_).steps_per_turn > 0; }

  void tend(const Event& event, Ctx& ctx, SecondaryState& s) const {
    if (event.kind < kCommandBase + kCare) return;
    const auto care = static_cast<std::uint16_t>(event.kind - kCommandBase - kCare);
    if (tend_armature(care, event.value, coil_.number, ctx)) s.margin.forget_build();
  }

  void begin(SecondaryState& s, const Reader& r) const {
    const std::int64_t now_min = (r.week_offset() + r.now()) / kMinute;
    s.shown = floor_mod(now_min + wrong_min_, kDialMinutes);
    s.ahead = wrong_min_;
    s.last = -1;
    s.excused = shaft_.valid() && r.state(shaft_).began_at > 0 ? 0 : -1;
    s.last_at = MissedMinutes::minute_of(r) - 1;
  }

  static void set(SecondaryState& s, std::int64_t minutes) {
    const std::int64_t shown = floor_mod(minutes, kDialMinutes);
    s.ahead += nearer_way(shown - s.shown);
    s.shown = shown;
  }

  /// The return carries the hand on by one minute. The step belongs to the minute that the master
  /// is in; a second one in the same minute is one too many.
  void step(SecondaryState& s, Ctx& ctx) const {
    s.gathered = 0;
    ++s.steps;
    s.shown = floor_mod(s.shown + 1, kDialMinutes);
    if (!shaft_.valid()) return;
    const Shaft& shaft = ctx.state(shaft_);
    const std::int64_t minute = shaft.position / shaft.steps_per_turn;
    if (minute <= s.last) {
      ++s.extra;
      ++s.ahead;
      return;
    }
    const std::int64_t without = minute - accounted_for(s) - 1;
    if (without > 0) {
      s.missed += without;
      s.missed_at.add_after(s.last_at, without);
      s.ahead -= without;
    }
    s.last_at = MissedMinutes::minute_of(ctx.reader());
    s.last = minute;
  }

  /// The backstop does not catch the wheel: it goes on by another tooth. The faster the stroke, the
  /// surer; at which speed it fails differs from stroke to stroke.
  bool runs_on(SecondaryState& s, Ctx& ctx) const {
    if (backstop_m_per_s_ >= kAlwaysHolds_m_per_s) return false;
    const double stray =
        normal_quantile(std::clamp(ctx.draw(kBackstopStream, s.backstop_draws++), 1e-9, 1 - 1e-9));
    const double holds = backstop_m_per_s_ * det_exp(kBackstopSpread * stray);
    return s.seat_m_per_s > holds;
  }

  static std::int64_t accounted_for(const SecondaryState& s) { return std::max(s.last, s.excused); }

  /// Minutes whose impulse was due since the last step.
  std::int64_t waiting(const Reader& r) const {
    const std::int64_t due = last_due(r) - accounted_for(r.state(state_));
    return due > 0 ? due : 0;
  }

  /// Whole minutes that the master has turned more than have gone by.
  std::int64_t master_min(const Reader& r) const {
    if (!turns(r)) return 0;
    const Shaft& shaft = r.state(shaft_);
    const auto turned = static_cast<double>(shaft.position - shaft.began_at) /
                        static_cast<double>(shaft.steps_per_turn);
    return static_cast<std::int64_t>(turned - to_seconds(r.now()) / 60);
  }

  /// What it has gained on true time, whole turns of the dial included.
  std::int64_t gained_min(const Reader& r) const {
    const std::int64_t forward = r.civil_shift(r.now()) / kMinute;  // of clocks on the wall
    return r.state(state_).ahead - waiting(r) + master_min(r) - forward;
  }

  /// The same on the dial, which cannot tell twelve hours from none. A clock that has lost half a
  /// day less an hour is slow by eleven hours, though its hands stand where an hour fast has them.
  std::int64_t error_min(const Reader& r) const { return gained_min(r) % kDialMinutes; }

  std::string label() const { return loop_.empty() ? name_ : name_ + " (loop " + loop_ + ")"; }

  static std::string verdict(std::int64_t error) {
    if (error == 0) return tr_as("of a clock", "right");
    return error < 0 ? say("{} min slow", -error) : say("{} min fast", error);
  }

  /// The same beyond a turn of the dial, which then reads otherwise.
  static std::string told(std::int64_t gained) {
    const std::int64_t error = gained % kDialMinutes;
    if (gained == error) return verdict(gained);
    return fmt::format("{} min {} (its dial reads {})", gained < 0 ? -gained : gained,
                       gained < 0 ? "behind" : "ahead", verdict(error));
  }

  std::string name_;
  std::string loop_;
  std::int64_t wrong_min_;
  std::int64_t due_at_;
  StateSlot<SecondaryState> state_;
  StateSlot<Shaft> shaft_;
  double backstop_m_per_s_;
  BuiltCoil coil_;
};

class SecondaryType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "minute-impulse secondary clock";
    d.stand = {Stand::Where::kRoom, 0, 0, "", "loop"};
    d.help = "Coil and armature whose full stroke and return move the hand on by one minute.";
    declare_winding(d, true);
    declare_armature(d, true);
    d.text("loop", "", "loop that it hangs on, for the report");
    d.quantity("wrong_at_start", "s", 0.0, -21600, 21540,
               "how far the dial is ahead of the scene's start, whole minutes")
        .step = 60;
    d.quantity("due_at", "beat", 40.0, 0.0, 3600,
               "step of the master's turn after which the minute's impulse has been due")
        .step = 1;
    d.quantity("backstop_holds", "m/s", kAlwaysHolds_m_per_s, 0.0, kAlwaysHolds_m_per_s,
               "speed of the armature at its stop up to which the backstop holds, as a rule",
               "a sound backstop: always");
    d.terminal("a", "one end of the winding");
    d.terminal("b", "other end of the winding");
    d.takes<Shaft>("compared_with", "the master's shaft of one turn a minute, to count steps by",
                   true);
    d.command("set", "sets the hands to a time of the twelve-hour dial", dial_time_field("time"))
        .begins_with = "shown";
    d.command("step", "moves the hand on by one minute by hand");
    declare_armature_care(d, {0.05, 0.8}, {1e-3, 4e-3});
    declare_coil_readings(d);
    d.reading("shown", "s", "time that the dial shows, from twelve o'clock").told = Told::kDial;
    d.reading(
         "error_min", "1",
         "minutes gained on true time less whole turns of the dial, 0 when compared with nothing")
        .told = Told::kMinutes;
    d.reading("steps", "1", "steps by impulse", Lane::kCount);
    d.reading("pull_in_volts", "V", "slowly raised voltage at the coil that pulls it in");
    d.reading(
         "off_master_min", "1",
         "minutes gained on the master less whole turns of the dial, 0 when compared with nothing")
        .told = Told::kMinutes;
    declare_armature_events(d);
    d.event(kBegins, "begins", "the dial is set and counting begins");
    d.called("step", "seats");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<Secondary>(b);
  }
};

}  // namespace

const PartType& secondary_part() {
  static const SecondaryType type;
  return type;
}

}  // namespace sixty::models
