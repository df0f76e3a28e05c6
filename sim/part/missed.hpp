#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "sim/part/part.hpp"

namespace sixty {

/// When something was missed, in minutes, grouped into so few spans that a person reads them: where
/// there would be more, the two that lie nearest together become one. Plain, for a part's state.
class MissedMinutes {
 public:
  /// The `count` minutes before the one that `r` is in.
  void add_before(const Reader& r, std::int64_t count);
  /// The `count` minutes after one, as minute_of() counts them.
  void add_after(std::int64_t minute, std::int64_t count);
  /// The minute that `r` is in.
  void add_now(const Reader& r);
  /// "Mon 08:00 - Tue 09:14, 1,514 minutes; Wed 10:00, 1 minute"; of a span in which not every
  /// minute was missed "300 of 1,514 minutes". Empty when nothing was missed.
  std::string text(const Reader& r) const;
  /// The same of other things than minutes: "Mon 08:00 - Mon 08:45, 2 rings".
  std::string text(const Reader& r, std::string_view noun) const;
  /// Since the Monday before the scene's start.
  static std::int64_t minute_of(const Reader& r) { return (r.week_offset() + r.now()) / kMinute; }

 private:
  /// Minutes since the Monday before the scene's start, ends included.
  struct Span {
    std::int64_t first = 0, last = 0, count = 0;
  };
  void add(const Span& span);
  void join_nearest();

  static constexpr std::size_t kMost = 6;
  std::array<Span, kMost + 1> spans_ = {};
  std::uint64_t used_ = 0;
};

}  // namespace sixty
