// What the tape says of itself: where it lies, and what hands did to the paper.
#include <fmt/format.h>

#include <cmath>

#include "models/tape/tape.hpp"
#include "sim/base/text.hpp"
#include "sim/base/weekdays.hpp"

namespace sixty::models {
namespace {

constexpr double kRowsInTime = 1.0;  // rows that clock and paper may be apart without a slip
constexpr std::int64_t kMinutesOfDay = 1440;

const char* row_or_rows(std::int64_t count) { return count == 1 ? "row" : "rows"; }

}  // namespace

// Rows that should have come in since Monday 00:00, with the part of the present one.
double Tape::rows_due(SimTime since_monday) const {
  return to_seconds(since_monday - steps_at_) / 60;
}

// How many rows the paper is behind true time. Half a minute either way is not the tape's fault.
std::int64_t Tape::slipped(const Reader& r) const {
  const auto loop = static_cast<double>(rows_);
  const double middle = static_cast<double>(r.state(state_).row) + 0.5;
  double behind = rows_due(r.since_monday()) - middle;
  behind -= loop * std::floor(behind / loop + 0.5);
  return std::fabs(behind) < kRowsInTime ? 0 : static_cast<std::int64_t>(std::floor(behind + 0.5));
}

double Tape::spark_j(const Reader& r) const {
  double sum = 0;
  for (const int finger : fingers_) sum += r.spark_j(finger);
  return sum;
}

// A shorter loop brings the same row at several times of the day.
std::string Tape::time_of(std::int64_t row) const {
  std::string text = format_minute_of_day(static_cast<int>(row));
  if (row + rows_ >= kMinutesOfDay) return text;
  if (row + 2 * rows_ >= kMinutesOfDay) {
    return text + " or " + format_minute_of_day(static_cast<int>(row + rows_));
  }
  return fmt::format("{} and every {} minutes", text, rows_);
}

// A loop that is ahead one way round is behind the other way. A tape that stood still for long
// has not run ahead, so both are told; how a hand sets it right soonest comes first.
std::string Tape::apart_text(std::int64_t behind) const {
  if (behind > 0) return fmt::format("{} {} behind time", behind, row_or_rows(behind));
  return fmt::format("{} {} ahead of time, or {} behind round the loop", -behind,
                     row_or_rows(-behind), rows_ + behind);
}

std::string Tape::repair_text(const JournalEntry& entry) const {
  const auto columns = static_cast<std::int64_t>(kMostColumns);
  const std::string time = time_of(entry.number / columns);
  const std::int64_t column = entry.number % columns + 1;
  switch (entry.kind) {
    case kPunched:
      return fmt::format("hole at {} punched in column {}", time, column);
    case kPatched:
      return fmt::format("hole at {} patched in column {}", time, column);
    case kNotchCut:
      return fmt::format("notch at {} cut", time);
    case kNotchPatched:
      return fmt::format("notch at {} patched", time);
    default:
      return fmt::format("sprocket hole at {} mended", time);
  }
}

void Tape::report(Report& report, const Reader& r) const {
  report_place(report, r);
  report_repairs(report, r);
  const TapeState& s = r.state(state_);
  if (s.jumps > 0) {
    report.warn(fmt::format("{}: the sprocket rode over torn holes and lost {} {}.", name_, s.jumps,
                            row_or_rows(s.jumps)));
  }
  const double sparks = spark_j(r);
  if (sparks > 0) {
    report.say("Tape",
               fmt::format("{}: fingers left the drum under current, with sparks of {:.3g} J.",
                           name_, sparks));
  }
}

void Tape::report_place(Report& report, const Reader& r) const {
  const TapeState& s = r.state(state_);
  const std::int64_t behind = slipped(r);
  Row row;
  row.count("row", s.row).count("slipped", behind).count("jumps", s.jumps);
  report.one_of("tape", "tapes", name_, row.put("spark_j", spark_j(r), "J"));
  const std::string place =
      fmt::format("{}: row {} ({}) under the fingers", name_, s.row, time_of(s.row));
  if (behind == 0) {
    report.say("Tape", place + ", in time.");
    return;
  }
  const std::string sentence = fmt::format("{}, {}.", place, apart_text(behind));
  report.say("Tape", sentence);
  report.warn(sentence);
}

void Tape::report_repairs(Report& report, const Reader& r) const {
  for (const JournalEntry& entry : r.journal()) {
    report.append("repairs")
        .text("at", r.clock_text(entry.at, 0))
        .text("id", name_)
        .text("what", repair_text(entry));
  }
}

}  // namespace sixty::models
