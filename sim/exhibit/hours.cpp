#include "sim/exhibit/hours.hpp"

#include <algorithm>
#include <utility>

namespace sixty::exhibit {

bool Hours::hold(const CalendarTime& local) const {
  const auto date = dates_.find(local.day);
  const std::vector<Span>& spans =
      date != dates_.end() ? date->second : week_[static_cast<std::size_t>(iso_weekday(local) - 1)];
  return std::any_of(spans.begin(), spans.end(), [&](const Span& span) {
    return local.ns_of_day >= span.from && local.ns_of_day < span.to;
  });
}

void Hours::add(int weekday, Span span) {
  week_[static_cast<std::size_t>(weekday - 1)].push_back(span);
}

void Hours::set_date(std::int64_t day, std::vector<Span> spans) { dates_[day] = std::move(spans); }

}  // namespace sixty::exhibit
