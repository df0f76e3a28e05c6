#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <utility>
#include <variant>
#include <vector>

namespace sixty {

/// One value of a report; empty is "not known" (null in JSON).
struct Cell {
  std::string key;
  std::variant<std::monostate, double, std::int64_t, bool, std::string> value;
  std::string unit;  ///< for people; JSON keys carry their unit in the name
};

/// Values under keys, in the order given.
/// Errors: a key that is there already throws std::logic_error; one of two values would be lost.
class Row {
 public:
  Row& put(std::string key, double value, std::string unit = "");
  Row& count(std::string key, std::int64_t value);
  Row& text(std::string key, std::string value);
  Row& flag(std::string key, bool value);
  Row& nothing(std::string key);
  Row& all_of(const Row& other);
  const std::vector<Cell>& cells() const { return cells_; }

 private:
  Row& add(Cell cell);
  std::vector<Cell> cells_;
};

/// The reading by which a part that swings tells its semi-arc, for a look at its scale. Units: rad.
constexpr const char* kArcReading = "semi_arc";

/// Headings with which the text report begins: what kept time, when things were missed, and (a
/// table) the weakest point of each loop and zone.
constexpr const char* kTimeKeptHeading = "Time kept";
constexpr const char* kMissedHeading = "Missed";
constexpr const char* kMarginsSection = "margins";

/// What parts say of a run. Sections come out in the order in which parts first name them; a
/// section is either one object or a list of rows (naming it as both throws std::logic_error).
class Report {
 public:
  struct Section {
    std::string name;
    bool list = false;
    std::vector<Row> rows;
  };
  /// The one row of a section, shared by all parts that name it: each gives keys of its own. The
  /// section without a name is the run as a whole. Order: the row is good only until another
  /// section is named.
  Row& object(const std::string& section);
  /// A new row of a list section.
  Row& append(const std::string& section);
  /// What a part says of itself where a scene mostly has one of its kind. The first one's values go
  /// into the object `section`; as soon as there are several, each is a row of `list` with its id.
  /// Returns whether this is the first.
  bool one_of(const std::string& section, const std::string& list, const std::string& id,
              const Row& values);
  /// Adds where it stands (`room`, by id) to every row of each list in which a row has an id with a
  /// room; null for the others. Order: after all rows.
  void tell_rooms(const std::map<std::string, std::string>& room_of);
  /// Volts that arrived at a part, and those that it needed. Of each group (a loop, a zone) the
  /// weakest is kept, as a row of `margins`.
  struct Margin {
    std::string group, part;
    double arrived_v = 0, needed_v = 0;
    std::string at;
  };
  void margin(const Margin& margin);
  /// A sentence for the text report, under a heading shared by parts of one kind.
  void say(const std::string& heading, std::string sentence);
  /// What was missed and when, as MissedMinutes::text() has it; an empty text: it was watched, and
  /// nothing was missed.
  void missed(const std::string& what, const std::string& when);
  /// Something that a technician should see to.
  void warn(std::string sentence) { warnings_.push_back(std::move(sentence)); }
  const std::vector<Section>& sections() const { return sections_; }
  const std::vector<std::pair<std::string, std::vector<std::string>>>& said() const {
    return said_;
  }
  const std::vector<std::string>& warnings() const { return warnings_; }

 private:
  std::vector<std::string>& sentences_under(const std::string& heading);
  Section& find(const std::string& section, bool list);
  std::vector<Section> sections_;
  std::vector<Margin> weakest_;                        ///< of each group, as the rows of `margins`
  std::vector<std::pair<std::string, Row>> first_of_;  ///< by name of the list
  std::vector<std::pair<std::string, std::vector<std::string>>> said_;
  std::vector<std::string> warnings_;
};

}  // namespace sixty
