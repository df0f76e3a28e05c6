#include "sim/part/missed.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/base/text.hpp"

namespace sixty {
void MissedMinutes::add_before(const Reader& r, std::int64_t count) {
  if (count > 0) add({minute_of(r) - count, minute_of(r) - 1, count});
}

void MissedMinutes::add_after(std::int64_t minute, std::int64_t count) {
  if (count > 0) add({minute + 1, minute + count, count});
}

void MissedMinutes::add_now(const Reader& r) { add({minute_of(r), minute_of(r), 1}); }

void MissedMinutes::add(const Span& span) {
  if (used_ > 0 && span.first <= spans_[used_ - 1].last + 1) {
    Span& latest = spans_[used_ - 1];
    const std::int64_t again =
        std::clamp(latest.last - span.first + 1, std::int64_t{0}, span.count);
    latest.last = std::max(latest.last, span.last);
    latest.count += span.count - again;
    return;
  }
  spans_[used_++] = span;
  if (used_ > kMost) join_nearest();
}

void MissedMinutes::join_nearest() {
  const auto gap = [&](std::size_t i) { return spans_[i + 1].first - spans_[i].last; };
  std::size_t nearest = 0;
  for (std::size_t i = 1; i + 1 < used_; ++i) {
    if (gap(i) < gap(nearest)) nearest = i;
  }
  spans_[nearest].last = spans_[nearest + 1].last;
  spans_[nearest].count += spans_[nearest + 1].count;
  for (std::size_t i = nearest + 1; i + 1 < used_; ++i) spans_[i] = spans_[i + 1];
  spans_[--used_] = {};
}

std::string MissedMinutes::text(const Reader& r) const { return text(r, "minute"); }

std::string MissedMinutes::text(const Reader& r, std::string_view noun) const {
  const auto at = [&](std::int64_t minute) {
    return r.day_text(minute * kMinute - r.week_offset());
  };
  std::string text;
  for (std::size_t i = 0; i < used_; ++i) {
    const Span& s = spans_[i];
    const std::int64_t whole = s.last - s.first + 1;
    text += (i == 0 ? "" : "; ") + at(s.first);
    if (whole > 1) text += " - " + at(s.last);
    text += ", " + grouped(s.count);
    const bool minutes = noun == "minute";
    if (minutes && s.count < whole) text += " of " + grouped(whole);
    text += fmt::format(" {}{}", noun, (minutes ? whole : s.count) == 1 ? "" : "s");
  }
  return text;
}

}  // namespace sixty
