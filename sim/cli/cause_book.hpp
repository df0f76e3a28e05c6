#pragma once

#include <map>
#include <string>
#include <vector>

#include "sim/base/clock_time.hpp"
#include "sim/run/session.hpp"

namespace sixty::cli {

/// Remembers every event of a run so far, so that a later one can name its cause. 16 bytes for each
/// event: kinds are numbered, and ids follow each other. What only a full trace has causes nothing.
class CauseBook {
 public:
  explicit CauseBook(const Installation& installation);
  void enter(const TraceRecord& record);
  /// "KIND PART @ TIME".
  std::string address(const TraceRecord& record) const;
  /// The same for the cause of a record; in words for what no event caused.
  std::string cause(const TraceRecord& record) const;
  /// Whether any event of this kind has been entered.
  bool has_kind(std::string_view kind) const { return kind_numbers_.count(kind) != 0; }
  std::vector<std::string> kinds() const { return kinds_; }

 private:
  struct Entry {
    SimTime at = -1;  ///< < 0: not entered
    PartId part = 0;
    std::uint32_t kind = 0;
  };
  const Entry* find(EventId id) const;
  std::string address_of(std::string_view kind, PartId part, SimTime at) const;

  const Installation& installation_;
  CivilClock clock_;
  std::vector<Entry> entries_;  // by id
  std::vector<std::string> kinds_;
  std::map<std::string, std::uint32_t, std::less<>> kind_numbers_;
};

}  // namespace sixty::cli
