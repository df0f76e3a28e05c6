#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <vector>

#include "models/timetable/carrying.hpp"
#include "sim/base/text.hpp"
#include "sim/base/weekdays.hpp"
#include "sim/part/part.hpp"
#include "sim/part/record.hpp"

namespace sixty::models {
namespace {

constexpr std::size_t kZones = 8;
constexpr std::int64_t kWeekMinutes = 7 * 1440;
/// A pause no longer than this does not end a ring: a chattering relay rings once.
constexpr SimTime kPause = 500 * kMillisecond;
constexpr double kLengthSlack = 1.0;  // s; half a beat either way and the relay's own time

enum Own : std::uint16_t { kMinuteBegins = 1, kMinuteEnds, kRingEnds };
enum Entry : std::uint16_t { kRang = 1, kMissedRing };
enum Reading : std::size_t { kRung, kMissed, kUnasked };

struct ZoneState {
  std::int64_t asked = 0;     ///< rings that this minute asks for
  std::int64_t answered = 0;  ///< of these have begun
  std::int64_t on = 0;        ///< the relay is in
  std::int64_t ringing = 0;   ///< on, or off for less than a pause
  std::int64_t by_paper = 0;  ///< the ring under way was asked for
  SimTime began = 0, ended = 0;
  double ring_length_s = 0;  ///< length asked for of the ring under way; 0: not said
  EventHandle end;
  std::int64_t asked_in_all = 0, rung = 0, missed = 0, unasked = 0;
};

struct TimetableState {
  std::array<ZoneState, kZones> zones;
  std::int64_t first = 0;  ///< place on the paper of the first ring that this minute asks for
  std::int64_t wrong_length = 0;
};

void put_rings(const Value::Record& record, WeekdaySet days, int minute, std::size_t zone,
               std::vector<Asked>& paper) {
  const auto given = static_cast<std::size_t>(field_of(record, "times").number);
  const std::size_t times = std::max(given, std::size_t{1});
  for (unsigned day = 0; day < 7; ++day) {
    if (!has_day(days, day)) continue;
    paper.insert(paper.end(), times, {day * 1440 + minute, zone, field_of(record, "for").number});
  }
}

std::vector<Asked> paper_of(Builder& b) {
  std::vector<Asked> paper;
  for (const auto& record : b.value("rings").records) {
    const auto zone = static_cast<std::size_t>(field_of(record, "zone").number) - 1;
    std::string error;
    const Value& named = field_of(record, "days");
    const std::optional<WeekdaySet> days = parse_weekdays(named.text, error);
    if (!days) {
      b.refuse("rings", named, error, "days: \"Mon-Fri\", or \"daily\"");
      continue;
    }
    for (const Value& time : field_of(record, "at").items) {
      const std::optional<int> minute = parse_minute_of_day(time.text, error);
      if (!minute) b.refuse("rings", time, error, "at: [\"08:05\", \"10:00\"]");
      if (minute) put_rings(record, *days, *minute, zone, paper);
    }
  }
  std::stable_sort(paper.begin(), paper.end(),
                   [](const Asked& a, const Asked& c) { return a.minute < c.minute; });
  return paper;
}

std::string name_of(const char* what, std::size_t zone) {
  return std::string(what) + std::to_string(zone + 1);
}

class Timetable final : public Part {
 public:
  explicit Timetable(Builder& b)
      : name_(b.name()),
        paper_(paper_of(b)),
        state_(b.state<TimetableState>()),
        day_programs_{b.taken<DayProgram>("paper"), b.taken<DayProgram>("second_paper")},
        week_programs_{b.taken<WeekProgram>("pins"), b.taken<WeekProgram>("second_pins")} {}

  void start(Ctx& ctx) const override {
    ctx.state(state_) = TimetableState{};
    for (std::size_t zone = 0; zone < kZones; ++zone) ctx.emit(zone, 0);
    const SimTime offset = ctx.reader().week_offset();
    // A minute that has begun before the scene did is not asked for.
    schedule_from((offset + kMinute - 1) / kMinute, ctx);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    TimetableState& s = ctx.state(state_);
    if (event.kind == kMinuteBegins) {
      begin_minute(event.number, ctx, s);
    } else if (event.kind == kMinuteEnds) {
      end_minute(ctx, s);
    } else if (event.kind == kRingEnds) {
      end_ring(static_cast<std::size_t>(event.number), ctx, s);
    } else if (event.kind >= kSignalBase && event.kind < kSignalBase + kZones) {
      const std::size_t zone = event.kind - kSignalBase;
      if (event.value != 0) {
        relay_in(zone, ctx, s);
      } else {
        relay_out(zone, ctx, s);
      }
    }
  }

  double read(std::size_t reading, const Reader& r) const override {
    const TimetableState& s = r.state(state_);
    constexpr std::int64_t ZoneState::*kCounts[] = {&ZoneState::rung, &ZoneState::missed,
                                                    &ZoneState::unasked};
    return static_cast<double>(sum(s, kCounts[reading]));
  }

  void report(Report& report, const Reader& r) const override {
    const TimetableState& s = r.state(state_);
    const std::int64_t rung = sum(s, &ZoneState::rung);
    const std::int64_t missed = sum(s, &ZoneState::missed);
    const std::int64_t unasked = sum(s, &ZoneState::unasked);
    Row row;
    row.count("rung", rung).count("missed", missed).count("unasked", unasked);
    report.one_of("timetable", "timetables", name_, row);
    const std::vector<JournalEntry> journal = r.journal();
    for (const JournalEntry& entry : journal) {
      if (entry.kind != kRang) continue;
      const SimTime began = entry.at - kPause - from_seconds(entry.value);
      put_ring(report, r, began, entry.value, entry.number);
    }
    put_rings_under_way(report, r);
    warn_of_missed(report, r, journal);
    report.say("Rings", fmt::format("{}: {} rung as asked, {} missed, {} unasked.", name_, rung,
                                    missed, unasked));
    put_zones(report, s);
    for (const std::string& sentence : compare(paper_, laid_down(r))) {
      report.warn(name_ + ": " + sentence);
    }
    if (s.wrong_length > 0) {
      report.warn(
          fmt::format("{} shorter or longer than the paper asks.",
                      counted(s.wrong_length, "ring") + (s.wrong_length == 1 ? " was" : " were")));
    }
  }

 private:
  static std::int64_t sum(const TimetableState& s, std::int64_t ZoneState::*count) {
    std::int64_t all = 0;
    for (const ZoneState& zone : s.zones) all += zone.*count;
    return all;
  }

  LaidDown laid_down(const Reader& r) const {
    LaidDown found;
    for (std::size_t i = 0; i < 2; ++i) {
      if (day_programs_[i].valid()) found.paper[i] = &r.state(day_programs_[i]);
      if (week_programs_[i].valid()) found.pins[i] = &r.state(week_programs_[i]);
    }
    return found;
  }

  // Zones of which the paper asks something, and those that rang all the same.
  void put_zones(Report& report, const TimetableState& s) const {
    for (std::size_t i = 0; i < kZones; ++i) {
      const ZoneState& z = s.zones[i];
      const bool on_paper = std::any_of(paper_.begin(), paper_.end(),
                                        [&](const Asked& asked) { return asked.zone == i; });
      if (!on_paper && z.unasked == 0) continue;
      report.append("zones")
          .text("timetable", name_)
          .count("zone", static_cast<std::int64_t>(i + 1))
          .count("asked", z.asked_in_all)
          .count("rung", z.rung)
          .count("missed", z.missed)
          .count("unasked", z.unasked);
    }
  }

  // The journal holds a ring a pause after its end, with zone, length and, as a sign, whether it
  // was asked for.
  static void put_ring(Report& report, const Reader& r, SimTime began, double length_s,
                       std::int64_t zone) {
    report.append("rings")
        .text("at", r.clock_text(began, 2))
        .count("zone", std::abs(zone))
        .put("for_s", length_s, "s")
        .flag("asked", zone > 0);
  }

  // Those are not in the journal yet; they are as long as they have been so far.
  void put_rings_under_way(Report& report, const Reader& r) const {
    const TimetableState& s = r.state(state_);
    for (std::size_t zone = 0; zone < kZones; ++zone) {
      const ZoneState& z = s.zones[zone];
      if (z.ringing == 0) continue;
      const SimTime until = z.on != 0 ? r.now() : z.ended;
      put_ring(report, r, z.began, to_seconds(until - z.began), signed_zone(zone, z));
    }
  }

  /// Zone's number as the journal holds it.
  static std::int64_t signed_zone(std::size_t zone, const ZoneState& z) {
    const auto number = static_cast<std::int64_t>(zone + 1);
    return z.by_paper != 0 ? number : -number;
  }

  static void warn_of_missed(Report& report, const Reader& r,
                             const std::vector<JournalEntry>& journal) {
    std::array<std::int64_t, kZones> missed = {};
    std::array<SimTime, kZones> first = {};
    for (const JournalEntry& entry : journal) {
      if (entry.kind != kMissedRing) continue;
      const auto zone = static_cast<std::size_t>(entry.number - 1);
      // The journal holds it at the end of its minute.
      if (missed[zone]++ == 0) first[zone] = entry.at - kMinute;
    }
    for (std::size_t zone = 0; zone < kZones; ++zone) {
      if (missed[zone] == 0) continue;
      report.warn(fmt::format("zone {} missed {}, {} {}.", zone + 1, counted(missed[zone], "ring"),
                              missed[zone] == 1 ? "at" : "the first one at",
                              r.clock_text(first[zone], 0)));
    }
  }

  std::vector<Asked>::const_iterator at_or_after(std::int64_t minute) const {
    return std::lower_bound(paper_.begin(), paper_.end(), minute,
                            [](const Asked& a, std::int64_t wanted) { return a.minute < wanted; });
  }

  // Length of the ring that a zone is to have next in this minute. Range: one is left.
  double next_length_s(const TimetableState& s, std::size_t zone) const {
    std::int64_t before = s.zones[zone].answered;
    for (auto k = static_cast<std::size_t>(s.first); k < paper_.size(); ++k) {
      if (paper_[k].zone == zone && before-- == 0) return paper_[k].length_s;
    }
    return 0;
  }

  // Whether the ring under way was asked to last beyond an instant.
  static bool goes_on(const ZoneState& z, SimTime at) {
    return z.ringing != 0 && z.began + from_seconds(z.ring_length_s) > at;
  }

  /// Next minute of the paper at or after that minute since the Monday of the scene's start.
  std::int64_t due_from(std::int64_t minute) const {
    const std::int64_t week = minute / kWeekMinutes;
    const auto next = at_or_after(minute % kWeekMinutes);
    return next == paper_.end() ? (week + 1) * kWeekMinutes + paper_.front().minute
                                : week * kWeekMinutes + next->minute;
  }

  // A ring at a time that clocks on the wall go forward over is not asked for; what they show twice
  // asks once.
  void schedule_from(std::int64_t minute, Ctx& ctx) const {
    const Reader& r = ctx.reader();
    std::int64_t from = minute;
    for (std::size_t k = 0; k < paper_.size(); ++k) {
      const std::int64_t due = due_from(from);
      const SimTime at = r.when_shown(due * kMinute - r.week_offset(), r.now());
      if (at != kNever) {
        ctx.schedule(at, kMinuteBegins, Phase::kObserve, due);
        return;
      }
      from = due + 1;
    }
  }

  void begin_minute(std::int64_t minute, Ctx& ctx, TimetableState& s) const {
    for (ZoneState& z : s.zones) z.answered = 0;
    const auto first = at_or_after(minute % kWeekMinutes);
    s.first = first - paper_.begin();
    for (auto asked = first; asked != paper_.end() && asked->minute == first->minute; ++asked) {
      ZoneState& z = s.zones[asked->zone];
      ++z.asked_in_all;
      // Nobody expects a beginning while the ring of the minute before is to go on.
      if (++z.asked == 1 && !goes_on(z, ctx.now())) ctx.emit(asked->zone, 1);
    }
    ctx.schedule(ctx.now() + kMinute, kMinuteEnds, Phase::kCommand);
    schedule_from(minute + 1, ctx);
  }

  void end_minute(Ctx& ctx, TimetableState& s) const {
    for (std::size_t zone = 0; zone < kZones; ++zone) {
      ZoneState& z = s.zones[zone];
      if (z.asked == 0) continue;
      const SimTime began = ctx.now() - kMinute;
      const bool from_before = z.began < began && goes_on(z, began);
      if (z.answered < z.asked && from_before) ring_through(zone, s);
      const std::int64_t missed = z.asked - z.answered;
      z.asked = 0;
      ctx.emit(zone, 0);
      z.missed += missed;
      if (missed > 0) ctx.because(false, {});
      for (std::int64_t k = 0; k < missed; ++k) {
        ctx.journal(kMissedRing, static_cast<std::int64_t>(zone + 1));
      }
    }
  }

  // A bell that rings on from one minute into the next and through it, as it was asked to, has rung
  // for both: so it is where a bell rings as long as the hole lies under the finger.
  void ring_through(std::size_t zone, TimetableState& s) const {
    ZoneState& z = s.zones[zone];
    z.ring_length_s += next_length_s(s, zone);
    ++z.answered;
    ++z.rung;
  }

  void relay_in(std::size_t zone, Ctx& ctx, TimetableState& s) const {
    ZoneState& z = s.zones[zone];
    ctx.cancel(z.end);
    z.on = 1;
    if (z.ringing != 0) return;
    z.ringing = 1;
    z.began = ctx.now();
    z.by_paper = z.answered < z.asked ? 1 : 0;
    z.ring_length_s = z.by_paper != 0 ? next_length_s(s, zone) : 0;
    z.answered += z.by_paper;
    ++(z.by_paper != 0 ? z.rung : z.unasked);
  }

  static void relay_out(std::size_t zone, Ctx& ctx, TimetableState& s) {
    ZoneState& z = s.zones[zone];
    z.on = 0;
    if (z.ringing == 0) return;
    z.ended = ctx.now();
    ctx.cancel(z.end);
    z.end = ctx.schedule(ctx.now() + kPause, kRingEnds, Phase::kObserve,
                         static_cast<std::int64_t>(zone));
  }

  static void end_ring(std::size_t zone, Ctx& ctx, TimetableState& s) {
    ZoneState& z = s.zones[zone];
    z.ringing = 0;
    const double length = to_seconds(z.ended - z.began);
    ctx.journal(kRang, signed_zone(zone, z), length);
    const double asked = z.ring_length_s;
    if (asked > 0 && (length < asked - kLengthSlack || length > asked + kLengthSlack)) {
      ++s.wrong_length;
    }
    if (z.answered < z.asked) ctx.emit(zone, 1);  // the minute asks for another
  }

  std::string name_;
  std::vector<Asked> paper_;
  StateSlot<TimetableState> state_;
  std::array<StateSlot<DayProgram>, 2> day_programs_;
  std::array<StateSlot<WeekProgram>, 2> week_programs_;
};

class TimetableType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "timetable on the wall";
    d.help = "Says which rings are due by true time, and compares those that come.";
    ParamDecl& rings = d.records(
        "rings",
        {count_field("zone", 1, static_cast<double>(kZones), "zone's number"),
         text_field("days", "\"Mon-Fri\", \"Mon, Wed\" or \"daily\""), chosen_times_field("at"),
         quantity_field("for", "s", 0.5, 60, "length of the ring", false),
         count_field("times", 1, 10, "rings in that minute, one if not given", false)},
        "rings that people expect");
    rings.source = "the owner's timetable";
    for (std::size_t zone = 0; zone < kZones; ++zone) {
      d.input(name_of("zone_", zone),
              name_of("1 as the relay pulls in, 0 as it drops out: zone ", zone));
    }
    for (std::size_t zone = 0; zone < kZones; ++zone) {
      d.output(name_of("asked_", zone), name_of("1 while a minute asks for a ring: zone ", zone));
    }
    d.takes<DayProgram>("paper", "holes to hold against it: column n is zone n", true);
    d.takes<DayProgram>("second_paper", "holes of the zones after those", true);
    d.takes<WeekProgram>("pins", "pins to hold against it", true);
    d.takes<WeekProgram>("second_pins", "pins of the zones after those", true);
    d.reading("rung", "1", "rings that came as asked");
    d.reading("missed", "1", "rings asked for that did not come");
    d.reading("unasked", "1", "rings that nobody asked for");
    d.event(kMinuteBegins, "asks", "a minute begins in which a ring is due");
    d.event(kMinuteEnds, "minute_over", "that minute is over");
    d.event(kRingEnds, "ring_over", "a ring is over");
  }
  std::unique_ptr<const Part> make(Builder& b) const override {
    return std::make_unique<Timetable>(b);
  }
};

}  // namespace

const PartType& timetable_part() {
  static const TimetableType type;
  return type;
}

}  // namespace sixty::models
