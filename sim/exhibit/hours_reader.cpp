#include "sim/exhibit/hours_reader.hpp"

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "sim/base/text.hpp"

namespace sixty::exhibit {
namespace {

constexpr const char* kForm = "Mon-Fri: \"09:00-17:30\", Sun: closed, 2026-12-24: closed";
const std::vector<std::string> kDays = {"Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun"};

/// "09:30", up to "24:00".
std::optional<SimTime> time_of_day(const std::string& text) {
  if (text.size() != 5 || text[2] != ':' || !is_digit(text[0]) || !is_digit(text[1]) ||
      !is_digit(text[3]) || !is_digit(text[4]))
    return std::nullopt;
  const SimTime hours = (text[0] - '0') * 10 + text[1] - '0';
  const SimTime minutes = (text[3] - '0') * 10 + text[4] - '0';
  const SimTime time = hours * kHour + minutes * kMinute;
  return minutes < 60 && time <= kDay ? std::optional(time) : std::nullopt;
}

/// The two sides of a dash; the same twice where there is none.
std::pair<std::string, std::string> sides_of(const std::string& text) {
  const std::size_t dash = text.find('-');
  if (dash == std::string::npos) return {trimmed(text), trimmed(text)};
  return {trimmed(text.substr(0, dash)), trimmed(text.substr(dash + 1))};
}

std::optional<std::pair<int, int>> weekdays_of(const std::string& text) {
  const auto [from, to] = sides_of(text);
  const auto first = std::find(kDays.begin(), kDays.end(), from);
  const auto last = std::find(first, kDays.end(), to);
  if (first == kDays.end() || last == kDays.end()) return std::nullopt;
  return std::pair{static_cast<int>(first - kDays.begin()) + 1,
                   static_cast<int>(last - kDays.begin()) + 1};
}

std::optional<std::vector<Hours::Span>> spans_of(const YamlNode& node, const std::string& label,
                                                 TreeReader& reader) {
  std::vector<std::string> texts;
  if (!node.items.empty()) {
    for (const YamlNode& item : node.items)
      if (reader.is_scalar(item, label, kForm)) texts.push_back(item.scalar);
  } else if (reader.is_scalar(node, label, kForm)) {
    if (node.scalar == "closed") return std::vector<Hours::Span>{};
    texts.push_back(node.scalar);
  }
  std::vector<Hours::Span> spans;
  for (const std::string& text : texts) {
    const auto [from, to] = sides_of(text);
    const auto begin = time_of_day(from), end = time_of_day(to);
    if (!begin || !end || *begin >= *end) {
      reader.add(node, label, "this is no span of a day", "\"09:00-17:30\", or closed",
                 "write the earlier time first; past midnight, write the rest to the next day");
      return std::nullopt;
    }
    spans.push_back({*begin, *end});
  }
  return spans;
}

}  // namespace

Hours read_hours(const YamlNode* node, const std::string& label, TreeReader& reader) {
  Hours hours;
  if (node == nullptr || !reader.is_map(*node, label, kForm)) return hours;
  hours.give();
  for (const auto& [key, value] : node->entries) {
    const auto spans = spans_of(value, label + "." + key.scalar, reader);
    if (!spans) continue;
    std::string error;
    if (const auto days = weekdays_of(key.scalar)) {
      for (int day = days->first; day <= days->second; ++day)
        for (const Hours::Span& span : *spans) hours.add(day, span);
    } else if (const auto date = parse_calendar_time(key.scalar, error);
               date && date->ns_of_day == 0) {
      hours.set_date(date->day, *spans);
    } else {
      reader.add(key, label, "this is no day", kForm,
                 "write Mon to Sun, a range of them, or a date");
    }
  }
  return hours;
}

}  // namespace sixty::exhibit
