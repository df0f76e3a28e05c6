#include <fmt/format.h>

#include <array>
#include <cmath>
#include <vector>

#include "sim/base/weekdays.hpp"
#include "sim/part/contact_params.hpp"
#include "sim/part/record.hpp"

namespace sixty::models {
namespace {

constexpr std::size_t kMostZones = 8;
constexpr std::int64_t kPlaces = 14;
constexpr double kHalfDaySeconds = 43200;
constexpr std::array<const char*, 7> kDayNames{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

enum Command : std::uint16_t { kSetPlace, kAdvance };
enum Reading : std::size_t { kPlace, kPins };

using Zones = std::uint8_t;  // bit 0: zone 1
using Pins = std::array<Zones, kPlaces>;

struct WheelState {
  std::int64_t place = 0;
  std::array<std::uint64_t, kMostZones> draws = {};
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
      b.refuse("pins", fmt::format("zone {} is not on this wheel", zone),
               fmt::format("zones go from 1 to {}", b.number("zones")));
      continue;
    }
    for (const std::string& when : field_of(record, "at").texts) {
      std::string error;
      if (set_pins(when, static_cast<Zones>(1U << (zone - 1)), pins, error)) continue;
      b.refuse("pins", error, "write half-days as \"Mon am\", \"Mon-Fri pm\" or \"Sat\"");
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
        film_(contact_film(b)),
        state_(b.state<WheelState>()) {
    const auto zones = static_cast<std::size_t>(b.number("zones"));
    for (std::size_t i = 0; i < zones; ++i) {
      circuit::Contact contact;
      contact.a = b.node(terminal_of(i, 'a'));
      contact.b = b.node(terminal_of(i, 'b'));
      contact.closed_ohm = film_.ohm(0.5);
      contact.kind = contact_kind(b);
      contacts_.push_back(b.add(contact));
    }
  }

  void start(Ctx& ctx) const override {
    WheelState& s = ctx.state(state_);
    s = WheelState{};
    const double since_monday = to_seconds(ctx.reader().week_offset()) - steps_at_s_;
    turn_to(static_cast<std::int64_t>(std::floor(since_monday / kHalfDaySeconds)), 0, ctx, s);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    WheelState& s = ctx.state(state_);
    const Zones before = pins_[static_cast<std::size_t>(s.place)];
    if (event.kind == kCommandBase + kSetPlace) {
      turn_to(static_cast<std::int64_t>(event.value), before, ctx, s);
    } else if (event.kind == kCommandBase + kAdvance || event.kind == kSignalBase) {
      turn_to(s.place + 1, before, ctx, s);
    }
  }

  double read(std::size_t reading, const Reader& r) const override {
    const WheelState& s = r.state(state_);
    return reading == kPlace ? static_cast<double>(s.place)
                             : pins_[static_cast<std::size_t>(s.place)];
  }

  void report(Report& report, const Reader& r) const override {
    const std::int64_t place = r.state(state_).place;
    report.one_of("tape", "week_wheels", name_, Row().count("week_place", place));
    report.say("Tape", fmt::format("{}: at place {}, {} {}", name_, place,
                                   kDayNames[static_cast<std::size_t>(place / 2)],
                                   place % 2 == 0 ? "a.m." : "p.m."));
  }

 private:
  void turn_to(std::int64_t place, Zones before, Ctx& ctx, WheelState& s) const {
    s.place = (place % kPlaces + kPlaces) % kPlaces;
    const Zones now = pins_[static_cast<std::size_t>(s.place)];
    for (std::size_t i = 0; i < contacts_.size(); ++i) {
      const bool closed = holds(now, i);
      if (closed == holds(before, i)) continue;
      const double ohm =
          closed ? film_.ohm(ctx.draw(static_cast<std::uint32_t>(i), s.draws[i]++)) : 0;
      ctx.set_contact(contacts_[i], closed, ohm, 0);
    }
  }

  std::string name_;
  Pins pins_;
  double steps_at_s_;
  ContactFilm film_;
  StateSlot<WheelState> state_;
  std::vector<int> contacts_;
};

class WeekWheelType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "week wheel";
    d.help = "Fourteen places, one to a half-day; a pin lets its zone ring in that half-day.";
    d.count("zones", 4, 1, static_cast<double>(kMostZones), "zones with a row of pins");
    d.records("pins",
              {count_field("zone", 1, static_cast<double>(kMostZones), "zone's number"),
               texts_field("at", "half-days: \"Mon am\", \"Mon-Fri pm\", \"Sat\", \"daily\"")},
              "pins set; without a pin there is no ringing");
    d.quantity("steps_at", "s", 5.0, 0, 59, "second of the minute at which a half-day comes in");
    declare_contact(d, {0.2, 0.015, 0.55, false, true});
    for (std::size_t i = 0; i < kMostZones; ++i) {
      const std::string zone = " side of the contact of zone " + std::to_string(i + 1);
      d.terminal(terminal_of(i, 'a'), "one" + zone);
      d.terminal(terminal_of(i, 'b'), "other" + zone);
    }
    d.input("step", "moves the wheel by a place");
    d.command("set_place", "sets the wheel by hand: 0 is Monday a.m., 13 Sunday p.m.",
              count_field("place", 0, kPlaces - 1, "place that is to stand at the contacts"));
    d.command("advance", "moves the wheel by a place by hand");
    d.reading("place", "1", "place of the wheel, 0 being Monday a.m.");
    d.reading("pins", "1", "zones that may ring, zone 1 counting 1, zone 2 counting 2, ...");
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
