#pragma once

#include <string>
#include <vector>

#include "sim/part/links.hpp"

namespace sixty::models {

/// A ring on the paper: minute of the week, Monday 00:00 being 0.
struct Asked {
  std::int64_t minute = 0;
  std::size_t zone = 0;
  double length_s = 0;  ///< 0: not said
};

/// What is laid down in paper and pins, in the order of the zones: those of the second follow on
/// those of the first. Null where there is none; without any pins every half-day may ring.
struct LaidDown {
  const DayProgram* paper[2] = {nullptr, nullptr};
  const WeekProgram* pins[2] = {nullptr, nullptr};
};

/// Sentences on rings that are asked for and not laid down, and the reverse, by zone; none if paper
/// and pins carry out what is asked. Order: `asked` sorted by minute.
std::vector<std::string> compare(const std::vector<Asked>& asked, const LaidDown& laid_down);

}  // namespace sixty::models
