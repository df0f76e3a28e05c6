#pragma once

#include <initializer_list>
#include <string>
#include <vector>

#include "sim/base/clock_time.hpp"

namespace sixty::gui {

/// Which time the strip shows: the present stands still at one place of it, and time goes by.
class Span {
 public:
  static constexpr SimTime kLeast = kMicrosecond, kMost = 2 * kWeek;
  static constexpr double kPresent = 0.7;  ///< share of the width left of the present
  void set(SimTime present, float left_px, float width_px);
  /// Changes how much is shown. Range: any; it stays between the least and the most.
  void zoom(double factor);
  void set_length(SimTime length);
  SimTime length() const { return length_; }
  SimTime from() const { return time_at(left_); }
  SimTime to() const { return time_at(left_ + width_); }
  float pixel(SimTime t) const;
  SimTime time_at(float pixel) const;
  double per_pixel_ns() const { return static_cast<double>(length_) / width_; }
  /// Width of a column of time that is nearest below a pixel, from 1, 2, 5, 10 ... Units: ns.
  SimTime column() const;

 private:
  SimTime present_ = 0;
  SimTime length_ = kMinute;
  float left_ = 0, width_ = 1;
};

/// A mark on the ruler.
struct Tick {
  SimTime at = 0;
  std::string text;  ///< empty: a small one
};
constexpr float kTickEm = 12;  ///< of their letters; pixels
/// Marks that lie far enough apart; whole days and hours, where it comes to that, are those of the
/// clock on the wall.
std::vector<Tick> ticks_of(const Span& span, const CivilClock& clock);
/// The first at or above a value of some numbers and their tenfolds, for the end of an axis or the
/// step between marks. Range: value > 0; the numbers rise, from 1 to less than 10.
double round_above(double value, std::initializer_list<double> numbers = {1, 2, 5});
/// How long a time is, for people: "1.25 ms".
std::string length_text(SimTime length);

}  // namespace sixty::gui
