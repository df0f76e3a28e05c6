#include "sim/base/civil.hpp"

#include <date/ptz.h>

#include <chrono>
#include <cstdlib>
#include <regex>

namespace sixty {
namespace {

using Seconds = std::chrono::seconds;

constexpr std::size_t kLongestRule = 64;
constexpr SimTime kLongestShift = kDay;

/// The standard's grammar, with the ranges that it states; summer time only with its two days.
const std::regex& grammar() {
  const std::string name = "(<[A-Za-z0-9+-]{3,10}>|[A-Za-z]{3,10})";
  const std::string hours = "([01]?[0-9]|2[0-4])(:[0-5][0-9]){0,2}";
  const std::string day_of_year = "(36[0-5]|3[0-5][0-9]|[12][0-9]{2}|[1-9]?[0-9])";
  const std::string day = "(M(1[0-2]|[1-9])\\.[1-5]\\.[0-6]|(J(?!0))?" + day_of_year + ")";
  const std::string change = "," + day + "(/" + hours + ")?";
  const std::string summer = "(" + name + "([+-]?" + hours + ")?" + change + change + ")?";
  static const std::regex rule(name + "[+-]?" + hours + summer);
  return rule;
}

std::optional<Posix::time_zone> zone_of(std::string_view rule, std::string& error) {
  error = "no rule for civil time";
  if (rule.size() > kLongestRule || !std::regex_match(std::string(rule), grammar()))
    return std::nullopt;
  try {
    return Posix::time_zone(std::string(rule));
  } catch (const std::exception&) {  // its text spans lines and points into them
    return std::nullopt;
  }
}

}  // namespace

std::optional<std::vector<CivilChange>> civil_changes(std::string_view rule,
                                                      const CalendarTime& start,
                                                      std::string& error) {
  const std::optional<Posix::time_zone> zone = zone_of(rule, error);
  if (!zone) return std::nullopt;
  const date::local_seconds begins{Seconds(start.day * 86400 + start.ns_of_day / kSecond)};
  const date::local_info at_start = zone->get_info(begins);
  if (at_start.result == date::local_info::nonexistent) {
    error = "the start does not exist: clocks go forward just then";
    return std::nullopt;
  }
  const Seconds first = at_start.first.offset;
  const date::sys_seconds began{begins.time_since_epoch() - first};
  const date::sys_seconds last = began + Seconds((kNever - 1) / kSecond);
  std::vector<CivilChange> changes;
  date::sys_info now = at_start.first;
  while (now.end < last && now.end > began) {
    const date::sys_seconds at = now.end;
    now = zone->get_info(at);
    const SimTime shift = (now.offset - first).count() * kSecond;
    if (shift % kMinute != 0 || std::abs(shift) > kLongestShift) {
      error = "clocks go forward or back by whole minutes, and no more than a day";
      return std::nullopt;
    }
    const SimTime before = changes.empty() ? 0 : changes.back().shift;
    const SimTime since = (at - began).count() * kSecond - start.ns_of_day % kSecond;
    if (shift != before) changes.push_back({since, shift});
    if (now.end <= at) break;
  }
  return changes;
}

}  // namespace sixty
