// Do holes and pins carry out the timetable? Minute by minute of a week, zone by zone; what differs
// is told by time of day with its days, as one reads it on the wall.
#include "models/timetable/carrying.hpp"

#include <fmt/format.h>

#include <array>
#include <map>

#include "sim/base/weekdays.hpp"

namespace sixty::models {
namespace {

constexpr std::int64_t kDay = 1440;
constexpr std::int64_t kHalfDay = 720;
constexpr std::int64_t kDays = 7;
constexpr std::size_t kMostZones = 8;
constexpr std::size_t kMostTold = 6;  // times told of one zone; who has more looks at the paper
constexpr std::array<const char*, 7> kNames{"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

using ByTime = std::map<std::int64_t, WeekdaySet>;  // minute of the day: days

enum class Lacks { kNothing, kHole, kPin };

// Column of the first program that reaches so far, or of the second.
template <class Program>
bool laid(const Program* const (&programs)[2], std::size_t zone,
          bool (*acts)(const Program&, std::size_t column, std::int64_t minute),
          std::int64_t minute) {
  for (const Program* program : programs) {
    if (program == nullptr) continue;
    const auto columns = static_cast<std::size_t>(program->columns);
    if (zone < columns) return acts(*program, zone, minute);
    zone -= columns;
  }
  return false;
}

bool has_bit(std::uint8_t bits, std::size_t i) { return (unsigned{bits} & (1U << i)) != 0; }

bool has_hole(const DayProgram& paper, std::size_t column, std::int64_t minute) {
  return paper.minutes > 0 &&
         has_bit(paper.acts[static_cast<std::size_t>(minute % kDay % paper.minutes)], column);
}

bool has_pin(const WeekProgram& pins, std::size_t column, std::int64_t minute) {
  return has_bit(pins.may_act[static_cast<std::size_t>(minute / kHalfDay)], column);
}

Lacks lacks(const LaidDown& laid_down, std::size_t zone, std::int64_t minute) {
  if (!laid(laid_down.paper, zone, &has_hole, minute)) return Lacks::kHole;
  const bool any_pins = laid_down.pins[0] != nullptr || laid_down.pins[1] != nullptr;
  const bool pin = !any_pins || laid(laid_down.pins, zone, &has_pin, minute);
  return pin ? Lacks::kNothing : Lacks::kPin;
}

std::string days_text(WeekdaySet days) {
  if (days == kEveryDay) return "daily";
  std::string text;
  for (unsigned first = 0; first < kDays; ++first) {
    if (!has_day(days, first)) continue;
    unsigned last = first;
    while (last + 1 < kDays && has_day(days, last + 1)) ++last;
    if (!text.empty()) text += ", ";
    text += kNames[first];
    if (last > first) text += fmt::format("{}{}", last == first + 1 ? ", " : "-", kNames[last]);
    first = last;
  }
  return text;
}

std::string times_text(const ByTime& times) {
  std::string text;
  std::size_t told = 0;
  for (const auto& [minute, days] : times) {
    if (told == kMostTold) break;
    text += fmt::format("{}{} ({})", told == 0 ? "" : ", ",
                        format_minute_of_day(static_cast<int>(minute)), days_text(days));
    ++told;
  }
  if (times.size() > told) text += fmt::format(" and {} more", times.size() - told);
  return text;
}

struct Differences {
  ByTime no_hole, no_pin, not_asked;
};

void note(ByTime& times, std::int64_t minute) {
  WeekdaySet& days = times[minute % kDay];
  days = static_cast<WeekdaySet>(days | (1U << (minute / kDay)));
}

Differences differences(const std::vector<Asked>& asked, const LaidDown& laid_down,
                        std::size_t zone) {
  Differences found;
  auto next = asked.begin();
  for (std::int64_t minute = 0; minute < kDays * kDay; ++minute) {
    bool wanted = false;
    for (; next != asked.end() && next->minute == minute; ++next) {
      wanted = wanted || next->zone == zone;
    }
    const Lacks what = lacks(laid_down, zone, minute);
    if (wanted && what == Lacks::kHole) note(found.no_hole, minute);
    if (wanted && what == Lacks::kPin) note(found.no_pin, minute);
    if (!wanted && what == Lacks::kNothing) note(found.not_asked, minute);
  }
  return found;
}

}  // namespace

std::vector<std::string> compare(const std::vector<Asked>& asked, const LaidDown& laid_down) {
  std::vector<std::string> sentences;
  if (laid_down.paper[0] == nullptr && laid_down.paper[1] == nullptr) return sentences;
  for (std::size_t zone = 0; zone < kMostZones; ++zone) {
    const Differences found = differences(asked, laid_down, zone);
    const auto tell = [&](const char* what, const ByTime& times) {
      if (times.empty()) return;
      sentences.push_back(fmt::format("zone {}: {} {}.", zone + 1, what, times_text(times)));
    };
    tell("asked, but no hole is punched for", found.no_hole);
    tell("asked and punched, but the week wheel has no pin for", found.no_pin);
    tell("punched and with a pin, but not asked:", found.not_asked);
  }
  return sentences;
}

}  // namespace sixty::models
