#pragma once

#include <cstddef>
#include <cstdint>
#include <deque>
#include <memory>
#include <optional>
#include <string>

namespace sixty::gui {

class SheetWriter;

/// Where the log goes, and how much of it is kept.
struct LogPlan {
  std::string path;                    ///< of the newest file; its folder is made
  std::size_t most_bytes = 1'000'000;  ///< of one file; then it is put aside as NAME.1.log
  std::size_t kept = 5;                ///< files put aside, the oldest goes
};

enum class LogLevel { kInfo, kWarning, kError };

/// What a monitor reads once a minute.
struct Minute {
  std::int64_t uptime = 0;                  ///< Units: s, of the program
  std::int64_t visits = 0;                  ///< today
  std::optional<std::int64_t> median_stay;  ///< Units: s, today; nothing before the first visit
  std::string language;                     ///< code of what is shown
  std::int64_t faults = 0;                  ///< troubles that the staff page tells of
};

/// "alive uptime=3600s visits=12 median_stay=94s language=de faults=0"; "median_stay=none" where
/// there is none.
std::string minute_line(const Minute& minute);

/// The heartbeat file is replaced whole: the time as unix seconds and by ISO 8601 (UTC), then the
/// minute, one KEY=VALUE a line. Its age tells any monitor whether the display lives.
/// Errors: told by the writer.
void write_heartbeat(const std::string& path, std::int64_t now, const Minute& minute,
                     SheetWriter& writer);
/// What it writes.
std::string heartbeat_text(std::int64_t now, const Minute& minute);

/// A log in files that are put aside when they are full. It throws nothing and waits for nobody:
/// where the disk is full, or the folder missing or not to be written in, it goes on, remembers
/// the last lines and the reason, and tries once a minute to open the file anew; so also where
/// somebody has removed it. Lines are English.
/// Order: one thread at a time; `now` in unix seconds, it is what stands before each line, in UTC.
class Logbook {
 public:
  static constexpr std::size_t kRecent = 200;      ///< lines kept in memory
  static constexpr std::int64_t kTryAgain = 60;    ///< s
  static constexpr std::size_t kMostLine = 2'000;  ///< bytes; the rest is cut

  explicit Logbook(const LogPlan& plan);
  Logbook(const Logbook&) = delete;
  Logbook& operator=(const Logbook&) = delete;
  ~Logbook();

  /// One line: control characters in it are written as \n, \x1b.
  void note(LogLevel level, const std::string& words, std::int64_t now);

  /// Why lines are not in the file, for the staff page; empty if all is well.
  const std::string& trouble() const { return trouble_; }
  /// Lines that no file has, since the program began.
  std::int64_t lost() const { return lost_; }
  /// The last lines, the newest last.
  const std::deque<std::string>& recent() const { return recent_; }

 private:
  struct Files;  // holds the library, which is included in one source alone

  bool is_time_to_look(std::int64_t now) const;
  void open(std::int64_t now);
  void put(LogLevel level, const std::string& line, std::int64_t now);

  LogPlan plan_;
  std::unique_ptr<Files> files_;
  std::string trouble_;
  std::int64_t lost_ = 0, lost_since_ = 0, looked_ = 0;
  bool has_looked_ = false;
  std::deque<std::string> recent_;
};

}  // namespace sixty::gui
