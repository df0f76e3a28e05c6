#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <tuple>
#include <vector>

namespace sixty::gui {

class SheetWriter;

/// One line of the file.
struct CountRow {
  std::int64_t day = 0;  ///< days since 1970-01-01, by the local calendar (CalendarTime::day)
  std::string language, action;
  std::int64_t count = 0;

  bool operator==(const CountRow&) const = default;
};

/// How often what was done on each day: no names, no times of day, nothing about anybody. A file
/// for each month in the folder, counts-2026-12.csv: date,language,action,count. They are written
/// whole or not at all, at most a minute after something was counted. A file that cannot be read
/// is kept beside it with the ending ".damaged", and what could be read of it goes on.
/// A stay is counted by how long it was, as one of the actions stay_0s, stay_5s, ... (each from so
/// many seconds to the next), so that a median is there again after a restart.
/// Order: one thread at a time; the writer lives longer.
class Counts {
 public:
  static constexpr std::int64_t kWriteAfter = 50;   ///< s
  static constexpr std::size_t kMostRows = 10'000;  ///< of a month; more are not begun

  /// Where nothing is to be kept, the folder is empty.
  Counts(const std::string& folder, SheetWriter& writer);

  /// `language` and `action`: lower-case letters, digits, "_" and "-", at most 40; anything else
  /// counts as "other". Range: day 0 to 100000.
  void count(std::int64_t day, const std::string& language, const std::string& action);
  /// How long a visit was. Units: s; below 0 counts as 0.
  void count_stay(std::int64_t day, const std::string& language, std::int64_t seconds);

  /// To be called at least every few seconds, `now` in unix seconds: hands changes to the writer
  /// when a minute is over, or when the clock was set back.
  void look(std::int64_t now);
  /// Hands all changes to the writer now, as at the end or at closing time.
  void keep();

  std::int64_t total(std::int64_t day, const std::string& action);
  /// Of all languages, by linear interpolation within the histogram's class. Units: s. Nothing
  /// before the first stay.
  std::optional<std::int64_t> median_stay(std::int64_t day);
  /// Those of one day, in the order of language and action, stays too.
  std::vector<CountRow> rows(std::int64_t day);

  /// The file of the month in which that day lies.
  std::string path_of(std::int64_t day) const;
  /// What was damaged, for the staff page; empty if nothing was.
  const std::string& note() const { return note_; }

 private:
  using Key = std::tuple<std::int64_t, std::string, std::string>;
  struct Month {
    std::map<Key, std::int64_t> rows;
    bool changed = false;
    bool stays = false;  // the file could neither be read nor set aside, and is left alone
  };

  Month& month_of(std::int64_t day);
  void read(const std::string& path, Month& month);
  void set_file_aside(const std::string& path, const std::string& what, Month& month);
  void add(std::int64_t day, const std::string& language, const std::string& action);

  std::string folder_;
  SheetWriter& writer_;
  std::map<std::string, Month> months_;  // by the file's path; kept, there are few
  std::optional<std::int64_t> changed_at_, now_;
  std::string note_;
};

}  // namespace sixty::gui
