#include <fmt/format.h>

#include <array>
#include <cmath>
#include <numeric>
#include <vector>

#include "sim/base/math.hpp"
#include "sim/base/weekdays.hpp"
#include "sim/part/contact_params.hpp"
#include "sim/part/record.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

constexpr std::size_t kMostZones = 8;
constexpr auto kPlaces = static_cast<std::int64_t>(WeekProgram::kHalfDays);
constexpr double kHalfDaySeconds = 43200;
constexpr std::array<const char*, 7> kDayNames{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

enum Command : std::uint16_t {
  kSetPlace,
  kAdvance,
  kFitPin,                          ///< + zone
  kPullPin = kFitPin + kMostZones,  ///< + zone
  kAfterPins = kPullPin + kMostZones
};
enum Repair : std::uint16_t { kFitted = 1, kPulled };
enum Reading : std::size_t { kPlace, kPins, kCurrent };

constexpr std::uint32_t kSlipStream = 64;  // beyond those of the contacts
using Zones = std::uint8_t;                // bit 0: zone 1
using Pins = std::array<Zones, WeekProgram::kHalfDays>;

struct WheelState {
  std::int64_t place = 0;
  Zones closed = 0;  ///< zones whose contact a pin holds
  std::uint8_t spare[7] = {};
  std::array<std::uint64_t, kMostZones> draws = {};
  ContactFaces faces;
  std::uint64_t slip_draws = 0;
};

bool holds(Zones zones, std::size_t zone) { return (unsigned{zones} & (1U << zone)) != 0; }

std::string terminal_of(std::size_t zone, char side) {
  return "zone_" + std::to_string(zone + 1) + "_" + side;
}

/// "Mon am", "Mon-Fri pm", "Sat", "daily": days, and which half of them (both if not said).
bool set_pins(std::string_view text, Zones zone, Pins& pins, std::string& error) {
  const std::size_t n = text.size();
  const std::string_view tail = n >= 3 ? text.substr(n - 3) : std::string_view{};
  const bool morning_only = tail == " am";
  const bool afternoon_only = tail == " pm";
  if (morning_only || afternoon_only) text.remove_suffix(3);
  const std::optional<WeekdaySet> days = parse_weekdays(text, error);
  if (!days) return false;
  for (unsigned day = 0; day < kDayNames.size(); ++day) {
    if (!has_day(*days, day)) continue;
    if (!afternoon_only) pins[2 * day] = static_cast<Zones>(pins[2 * day] | zone);
    if (!morning_only) pins[2 * day + 1] = static_cast<Zones>(pins[2 * day + 1] | zone);
  }
  return true;
}

Pins pins_of(Builder& b) {
  Pins pins = {};
  for (const auto& record : b.value("pins").records) {
    const auto zone = static_cast<std::size_t>(field_of(record, "zone").number);
    if (zone < 1 || zone > static_cast<std::size_t>(b.number("zones"))) {
      b.refuse("pins", field_of(record, "zone"), fmt::format("zone {} is not on this wheel", zone),
               fmt::format("zones go from 1 to {}", b.number("zones")));
      continue;
    }
    for (const Value& when : field_of(record, "at").items) {
      std::string error;
      if (set_pins(when.text, static_cast<Zones>(1U << (zone - 1)), pins, error)) continue;
      b.refuse("pins", when, error, "write half-days as \"Mon am\", \"Mon-Fri pm\" or \"Sat\"");
    }
  }
  return pins;
}

class WeekWheel final : public Part {
 public:
  explicit WeekWheel(Builder& b)
      : name_(b.name()),
        pins_(pins_of(b)),
        steps_at_s_(b.number("steps_at")),
        step_slips_(b.number("step_slips")),
        faces_(contact_faces(b)),
        state_(b.state<WheelState>()),
        air_(b.taken<Surroundings>("surroundings")),
        program_(b.offered<WeekProgram>("pins_set")) {
    const auto zones = static_cast<std::size_t>(b.number("zones"));
    for (std::size_t i = 0; i < zones; ++i) {
      circuit::Contact contact;
      contact.a = b.node(terminal_of(i, 'a'));
      contact.b = b.node(terminal_of(i, 'b'));
      contact.closed_ohm = faces_.film.ohm(0.5);
      contact.kind = contact_kind(b);
      contacts_.push_back(b.add(contact));
    }
  }

  void start(Ctx& ctx) const override {
    WheelState& s = ctx.state(state_);
    s = WheelState{};
    s.faces = faces_;
    WeekProgram& program = ctx.state(program_);
    program.columns = static_cast<std::int64_t>(contacts_.size());
    program.may_act = pins_;
    turn_to(due(ctx.reader().week_offset()), ctx, s);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    WheelState& s = ctx.state(state_);
    if (event.kind == kSignalBase && slips(ctx, s)) return;
    if (event.kind == kCommandBase + kSetPlace) {
      turn_to(static_cast<std::int64_t>(event.value), ctx, s);
    } else if (event.kind == kCommandBase + kAdvance || event.kind == kSignalBase) {
      turn_to(s.place + 1, ctx, s);
    } else if (event.kind >= kCommandBase + kFitPin && event.kind < kCommandBase + kAfterPins) {
      change_pin(event, ctx, s);
    } else if (is_link_change(event)) {
      tarnish(ctx.state(air_), s.faces);
    }
  }

  double read(std::size_t reading, const Reader& r) const override {
    const WheelState& s = r.state(state_);
    if (reading == kPlace) return static_cast<double>(s.place);
    if (reading == kPins) return pins_at(s.place, r.state(program_));
    return std::accumulate(contacts_.begin(), contacts_.end(), 0.0,
                           [&](double sum, int c) { return sum + r.contact_current_a(c); });
  }

  bool has_use_for(std::size_t command) const override {
    if (command < kFitPin || command >= kAfterPins) return true;
    return (command - kFitPin) % kMostZones < contacts_.size();
  }

  // Fourteen half-days; the one at the top, under the springs, is now.
  void draw(Figure& f, const Pose& at, const Reader& r) const override {
    const Figure::Within within(f, at);
    const WheelState& s = r.state(state_);
    const WeekProgram& program = r.state(program_);
    constexpr double kRadius = 92;
    constexpr double kEach = 2 * kPi / WeekProgram::kHalfDays;
    f.disc(Material::kDeepBrass, {}, kRadius, 6);
    f.disc(Material::kInsulation, {}, kRadius - 4, 0);
    for (std::size_t half = 0; half < WeekProgram::kHalfDays; ++half) {
      const double a = (static_cast<double>(half) - static_cast<double>(s.place)) * kEach;
      f.line(Material::kIvory,
             std::array{polar(24, a + kEach / 2), polar(kRadius - 6, a + kEach / 2)},
             half % 2 == 1 ? 1.4 : 0.6);
      for (std::size_t zone = 0; zone < contacts_.size(); ++zone) {
        const double radius = 32 + 11 * static_cast<double>(zone);
        if (holds(program.may_act[half], zone))
          f.disc(Material::kBrass, polar(radius, a), 4, 1);
        else
          f.disc(Material::kHollow, polar(radius, a), 2.6);
      }
      if (half % 2 == 0)
        f.text(Material::kIvory, polar(80, a + kEach / 2), 12,
               std::string_view(kDayNames[half / 2]).substr(0, 2));
    }
    f.disc(Material::kBrass, {}, 17, 3);
    f.box(Material::kInsulation, {-40, -128}, {40, -112}, 3);
    for (std::size_t zone = 0; zone < contacts_.size(); ++zone) {
      const double x = -27 + 18 * static_cast<double>(zone);
      const double radius = 32 + 11 * static_cast<double>(zone);
      f.line(Material::kSteel, std::array{Point{x, -118}, Point{x * 0.2, -radius - 4}}, 2.6, 5)
          .current_a = r.contact_current_a(contacts_[zone]);
      f.disc(Material::kBrass, {x, -120}, 4.4, 1);
      f.terminal(terminal_of(zone, 'a'), {x, -128});
      f.terminal(terminal_of(zone, 'b'), {40, -126 + 5 * static_cast<double>(zone)});
    }
    f.name_at({0, 100});
  }

  void report(Report& report, const Reader& r) const override {
    const std::int64_t place = r.state(state_).place;
    const std::int64_t behind = places_behind(r);
    report.one_of("tape", "week_wheels", name_,
                  Row().count("week_place", place).count("places_behind", behind));
    const std::string stands = fmt::format("{}: at place {}, {}", name_, place, half_day(place));
    if (behind == 0) {
      report.say("Tape", stands + ", in time.");
    } else {
      const std::string sentence =
          fmt::format("{}, where {} is due.", stands, half_day((place + behind) % kPlaces));
      report.say("Tape", sentence);
      report.warn(sentence);
    }
    for (const JournalEntry& entry : r.journal()) {
      const std::string what = fmt::format("pin of zone {} {} {}", entry.number / kPlaces + 1,
                                           entry.kind == kFitted ? "fitted for" : "taken out of",
                                           half_day(entry.number % kPlaces));
      report.append("repairs")
          .text("at", r.clock_text(entry.at, 0))
          .text("id", name_)
          .text("what", what);
    }
  }

  // Light blades. Pitch and loudness: common practice, no source.
  std::vector<Voice> voices() const override {
    return {{Voice::Kind::kTick, located_kind(circuit::What::kMakes), 3000, 0.02, 0.1},
            {Voice::Kind::kTick, located_kind(circuit::What::kBreaks), 2700, 0.02, 0.1}};
  }

 private:
  /// The pawl does not take the wheel along.
  bool slips(Ctx& ctx, WheelState& s) const {
    if (step_slips_ == 0) return false;
    const bool taken = ctx.draw(kSlipStream, s.slip_draws++) >= step_slips_;
    const std::array<Condition, 1> conditions = {
        Condition{to_tr("the pawl takes the wheel along"), taken ? 1.0 : 0.0, 1, taken}};
    ctx.because(taken, conditions);
    return !taken;
  }

  static std::string half_day(std::int64_t place) {
    return fmt::format("{} {}", kDayNames[static_cast<std::size_t>(place / 2)],
                       place % 2 == 0 ? "a.m." : "p.m.");
  }

  /// Place that is due, counted on from the Monday before the scene's start.
  std::int64_t due(SimTime since_monday) const {
    return static_cast<std::int64_t>(
        std::floor((to_seconds(since_monday) - steps_at_s_) / kHalfDaySeconds));
  }

  /// Places to move on by until the wheel is right. A minute early or late is not its fault.
  std::int64_t places_behind(const Reader& r) const {
    const SimTime since_monday = r.since_monday();
    const std::int64_t place = r.state(state_).place;
    if (floor_mod(due(since_monday - kMinute) - place, kPlaces) == 0) return 0;
    return floor_mod(due(since_monday + kMinute) - place, kPlaces);
  }

  static Zones pins_at(std::int64_t place, const WeekProgram& program) {
    return program.may_act[static_cast<std::size_t>(place)];
  }

  void turn_to(std::int64_t place, Ctx& ctx, WheelState& s) const {
    s.place = floor_mod(place, kPlaces);
    settle(ctx, s);
  }

  // Contacts follow the pins of the place; what stays closed is not touched.
  void settle(Ctx& ctx, WheelState& s) const {
    const Zones now = pins_at(s.place, ctx.state(program_));
    for (std::size_t i = 0; i < contacts_.size(); ++i) {
      const bool closes = holds(now, i);
      if (closes == holds(s.closed, i)) continue;
      const double ohm =
          closes ? closing_ohm(s.faces, ctx.draw(static_cast<std::uint32_t>(i), s.draws[i]++)) : 0;
      ctx.set_contact(contacts_[i], closes, ohm, 0);
    }
    s.closed = now;
  }

  void change_pin(const Event& event, Ctx& ctx, WheelState& s) const {
    const auto command = static_cast<std::size_t>(event.kind - kCommandBase);
    const bool fits = command < kPullPin;
    const std::size_t zone = command - (fits ? std::size_t{kFitPin} : std::size_t{kPullPin});
    const auto place = static_cast<std::int64_t>(event.value);
    Zones& pins = ctx.state(program_).may_act[static_cast<std::size_t>(place)];
    const bool here = zone < contacts_.size();
    const bool changes = here && holds(pins, zone) != fits;
    const std::array<Condition, 2> conditions = {
        Condition{to_tr("zones of this wheel"), static_cast<double>(contacts_.size()),
                  static_cast<double>(zone + 1), here},
        Condition{to_tr("the pins are not so yet"), changes ? 1.0 : 0.0, 1, changes}};
    ctx.because(changes, conditions);
    if (!changes) return;
    pins = static_cast<Zones>(pins ^ (1U << zone));
    ctx.journal(fits ? kFitted : kPulled, static_cast<std::int64_t>(zone) * kPlaces + place);
    settle(ctx, s);
  }

  std::string name_;
  Pins pins_;
  double steps_at_s_;
  double step_slips_;
  ContactFaces faces_;
  StateSlot<WheelState> state_;
  StateSlot<Surroundings> air_;
  StateSlot<WeekProgram> program_;
  std::vector<int> contacts_;
};

void declare_pin_commands(Declaration& d) {
  const auto place = [] {
    return count_field("place", 0, kPlaces - 1, "half-day, 0 being Monday a.m.");
  };
  for (std::size_t i = 0; i < kMostZones; ++i) {
    const std::string zone = std::to_string(i + 1);
    d.command("fit_pin_" + zone, "fits a pin for zone " + zone, place()).begins_with = "place";
  }
  for (std::size_t i = 0; i < kMostZones; ++i) {
    const std::string zone = std::to_string(i + 1);
    d.command("pull_pin_" + zone, "takes the pin of zone " + zone + " out", place()).begins_with =
        "place";
  }
}

class WeekWheelType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "week wheel";
    d.stand = {Stand::Where::kFixed, 1106, 446, "", ""};
    d.help = "Fourteen places, one to a half-day; a pin lets its zone ring in that half-day.";
    d.count("zones", 4, 1, static_cast<double>(kMostZones), "zones with a row of pins");
    d.records("pins",
              {count_field("zone", 1, static_cast<double>(kMostZones), "zone's number"),
               texts_field("at", "half-days: \"Mon am\", \"Mon-Fri pm\", \"Sat\", \"daily\"")},
              "pins set; without a pin there is no ringing");
    d.quantity("steps_at", "s", 5.0, 0, 59, "second of the minute at which a half-day comes in");
    d.quantity("step_slips", "1", 0.0, 0.0, 1, "chance that a step does not take the wheel along",
               "a sound pawl: never");
    declare_contact(d, {0.2, 0.015, 0.55, false, true});
    for (std::size_t i = 0; i < kMostZones; ++i) {
      const std::string zone = " side of the contact of zone " + std::to_string(i + 1);
      d.terminal(terminal_of(i, 'a'), "one" + zone);
      d.terminal(terminal_of(i, 'b'), "other" + zone);
    }
    d.input("step", "moves the wheel by a place");
    d.offers<WeekProgram>("pins_set", "pins that are in the wheel now");
    d.command("set_place", "sets the wheel by hand: 0 is Monday a.m., 13 Sunday p.m.",
              count_field("place", 0, kPlaces - 1, "place that is to stand at the contacts"))
        .sets = "place";
    d.command("advance", "moves the wheel by a place by hand");
    declare_pin_commands(d);
    d.reading("place", "1", "place of the wheel, 0 being Monday a.m.", Lane::kCount);
    d.reading("pins", "1", "zones that may ring, zone 1 counting 1, zone 2 counting 2, ...");
    d.reading("current", "A", "current through its contacts, all together");
    declare_contact_events(d);
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<WeekWheel>(b);
  }
};

}  // namespace

const PartType& week_wheel_part() {
  static const WeekWheelType type;
  return type;
}

}  // namespace sixty::models
