#pragma once

#include <array>
#include <cstdint>
#include <map>
#include <vector>

#include "sim/base/clock_time.hpp"

namespace sixty::exhibit {

/// Times of day, by day of the week, and other ones on some dates.
class Hours {
 public:
  /// From one time of day up to another. Units: ns. Range: 0 <= from < to <= a day.
  struct Span {
    SimTime from = 0, to = 0;
    bool operator==(const Span&) const = default;
  };
  /// None are given: nothing is said of any time.
  bool are_given() const { return given_; }
  /// Whether that local time is among them.
  bool hold(const CalendarTime& local) const;

  /// `weekday`: 1 (Monday) to 7. A day to which nothing is added has none.
  void add(int weekday, Span span);
  /// On that date (days since 1970-01-01) there are these and no others.
  void set_date(std::int64_t day, std::vector<Span> spans);
  void give() { given_ = true; }

 private:
  bool given_ = false;
  std::array<std::vector<Span>, 7> week_;
  std::map<std::int64_t, std::vector<Span>> dates_;
};

}  // namespace sixty::exhibit
