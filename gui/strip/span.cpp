#include "gui/strip/span.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "gui/paint/text_width.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr double kLabelGap_px = 84, kTickApart_px = 10;
constexpr std::array<SimTime, 9> kLongSteps{2 * kMinute,  5 * kMinute, 10 * kMinute,
                                            30 * kMinute, kHour,       2 * kHour,
                                            6 * kHour,    12 * kHour,  kDay};

/// 1, 2, 5, 10 ... up to a value.
SimTime round_below(double value) {
  SimTime ten = 1;
  while (static_cast<double>(ten) * 10 <= value) ten *= 10;
  for (const SimTime k : {5, 2}) {
    if (static_cast<double>(ten * k) <= value) return ten * k;
  }
  return ten;
}

/// The least step of the ruler that leaves room for its labels.
SimTime step_of(double least_ns) {
  SimTime step = round_below(least_ns);
  while (static_cast<double>(step) < least_ns && step < 50 * kSecond) {
    const SimTime next = round_below(static_cast<double>(step) * 2.5);
    step = next > step ? next : step * 2;
  }
  if (static_cast<double>(step) >= least_ns && step <= 20 * kSecond) return step;
  if (least_ns <= static_cast<double>(30 * kSecond)) return 30 * kSecond;
  if (least_ns <= static_cast<double>(kMinute)) return kMinute;
  for (const SimTime s : kLongSteps) {
    if (static_cast<double>(s) >= least_ns) return s;
  }
  return 2 * kDay;
}

int digits_of(SimTime step) {
  int digits = 9;
  for (SimTime unit = 1; digits > 0 && step % (unit * 10) == 0; unit *= 10) --digits;
  return digits;
}

/// As short as the step lets it be: what does not change along the ruler is said elsewhere.
std::string tick_text(SimTime t, SimTime step, const CivilClock& clock) {
  const std::string whole = format_weekday_time(clock, t, digits_of(step));  // "Mon 10:15:05.02"
  // Two midnights would look alike.
  if (step >= kMinute && whole.substr(4, 5) == "00:00") return tr(whole.substr(0, 3));
  if (step >= kMinute) return whole.substr(4, 5);
  return spoken_number(whole.substr(7));
}

}  // namespace

void Span::set(SimTime present, float left_px, float width_px) {
  present_ = present;
  left_ = left_px;
  width_ = std::max(width_px, 1.0F);
}

void Span::set_length(SimTime length) { length_ = std::clamp(length, kLeast, kMost); }

void Span::zoom(double factor) {
  set_length(static_cast<SimTime>(
      std::clamp(static_cast<double>(length_) * factor, 1.0, static_cast<double>(kMost))));
}

float Span::pixel(SimTime t) const {
  const double off = static_cast<double>(t - present_) / per_pixel_ns();
  return left_ + static_cast<float>(kPresent * width_ + off);
}

SimTime Span::time_at(float pixel) const {
  const double off = static_cast<double>(pixel - left_) - kPresent * width_;
  return present_ + std::llround(off * per_pixel_ns());
}

SimTime Span::column() const { return round_below(std::max(per_pixel_ns(), 1.0)); }

std::vector<Tick> ticks_of(const Span& span, const CivilClock& clock) {
  SimTime step = step_of(kLabelGap_px * span.per_pixel_ns());
  // With the digits of a microsecond they are wider than elsewhere.
  const std::string first = tick_text(std::max<SimTime>(span.from(), 0), step, clock);
  const double taken_px = static_cast<double>(text_width(first, kTickEm)) + kTickApart_px;
  if (taken_px * span.per_pixel_ns() > static_cast<double>(step))
    step = step_of(taken_px * span.per_pixel_ns());
  const SimTime small = step % 5 == 0 ? step / 5 : std::max<SimTime>(step / 2, 1);
  // Steps of hours are those of the day.
  const SimTime shift = step >= kMinute ? clock.start.ns_of_day % step : 0;
  std::vector<Tick> ticks;
  SimTime at = (std::max<SimTime>(span.from(), 0) + shift) / small * small - shift;
  for (; at <= span.to(); at += small) {
    if (at < 0) continue;
    const bool large = (at + shift) % step == 0;
    ticks.push_back({at, large ? tick_text(at, step, clock) : ""});
  }
  return ticks;
}

double round_above(double value, std::initializer_list<double> numbers) {
  const double ten = std::pow(10.0, std::floor(std::log10(value)));
  for (const double k : numbers) {
    if (k * ten >= value * 0.999) return k * ten;
  }
  return 10 * ten;
}

std::string length_text(SimTime length) {
  const double s = to_seconds(length);
  if (s < 1e-6) return fmt::format("{} ns", length);
  if (s < 1e-3) return say("{:.4g} us", s * 1e6);
  if (s < 1) return say("{:.4g} ms", s * 1e3);
  if (s < 120) return say("{:.4g} s", s);
  if (s < 7200) return say("{:.4g} min", s / 60);
  if (s < 172800) return say("{:.4g} h", s / 3600);
  return say("{:.4g} days", s / 86400);
}

}  // namespace sixty::gui
