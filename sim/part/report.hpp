#pragma once

#include <cstdint>
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

class Row {
 public:
  Row& put(std::string key, double value, std::string unit = "");
  Row& count(std::string key, std::int64_t value);
  Row& text(std::string key, std::string value);
  Row& flag(std::string key, bool value);
  Row& nothing(std::string key);
  const std::vector<Cell>& cells() const { return cells_; }

 private:
  std::vector<Cell> cells_;
};

/// What parts say of a run. Sections come out in the order in which parts first name them; a
/// section is either one object or a list of rows.
class Report {
 public:
  struct Section {
    std::string name;
    bool list = false;
    std::vector<Row> rows;
  };
  /// The one row of a section, shared by all parts that name it. The section without a name is the
  /// run as a whole. Order: the row is good only until another section is named.
  Row& object(const std::string& section);
  /// A new row of a list section.
  Row& append(const std::string& section);
  /// A sentence for the text report, under a heading shared by parts of one kind.
  void say(const std::string& heading, std::string sentence);
  /// Something that a technician should see to.
  void warn(std::string sentence) { warnings_.push_back(std::move(sentence)); }
  const std::vector<Section>& sections() const { return sections_; }
  const std::vector<std::pair<std::string, std::vector<std::string>>>& said() const {
    return said_;
  }
  const std::vector<std::string>& warnings() const { return warnings_; }

 private:
  Section& find(const std::string& section, bool list);
  std::vector<Section> sections_;
  std::vector<std::pair<std::string, std::vector<std::string>>> said_;
  std::vector<std::string> warnings_;
};

}  // namespace sixty
