#pragma once

#include <optional>
#include <string>

#include "sim/scene/line_template.hpp"

namespace sixty {

constexpr const char* kLength = "length";  ///< of a run: the parameter that a line sets
constexpr const char* kPlacesExample = "[{name: hall_clock, length: 30 m}]";

/// A line as written.
struct Line {
  std::string label;  ///< "lines.upper"
  std::string name;
  Place place;
  bool series = false;
  Written from, to;
  std::string room;  ///< where it begins
  LineTemplate run, each;
};

/// One item of a list of places: one place, or many alike.
struct LinePlace {
  std::string label;  ///< "lines.upper.places[2]"
  Place place;
  std::string name;  ///< with "{n}" if there are many
  std::string room;
  int first = 1, count = 1;
  LineTemplate run;
  std::optional<LineTemplate> each;
  const YamlNode* branch = nullptr;
};

/// The name of one of many: "{n}" in it becomes the number.
std::string numbered(std::string name, int number);

/// The parameter of a run that holds its length; nullptr if its type has none.
const ParamDecl* length_of(const LineTemplate& run);

/// Fields of a place that hold one number, as their reader and the schema know them.
ParamDecl place_count_field();
ParamDecl place_first_field();
ParamDecl place_length_field();

/// Keys of a line, and of a place on it.
const std::vector<std::string>& line_keys();
const std::vector<std::string>& line_place_keys();

/// Reads lines and their places out of a scene's tree.
class LineReader {
 public:
  LineReader(const Registry& registry, const Draft& draft, TreeReader& reader)
      : registry_(registry), draft_(draft), reader_(reader) {}

  /// Errors: nothing if there is no telling where it leads or what it is made of; reported.
  std::optional<Line> line(const YamlNode& key, const YamlNode& map);
  /// Errors: nothing if it cannot be laid; reported.
  std::optional<LinePlace> place(const Line& line, const YamlNode& map, const std::string& label);
  /// The part at the head of a series loop. Errors: nothing, reported.
  std::optional<LineTemplate> ballast(const Line& line, const YamlNode& map);
  /// Takes a length into a template of a run, if there is one. Errors: false, reported.
  bool length(const YamlNode* node, const std::string& label, LineTemplate& run);
  /// Whether a key that belongs to series loops stands in one. Errors: false, reported.
  bool only_in_series(const Line& line, const YamlNode& node, const std::string& key);

 private:
  bool kind(const YamlNode& map, const YamlNode& key, Line& line);
  bool end(const YamlNode& map, const YamlNode& key, const char* which, const std::string& label,
           Written& into);
  bool templates(const YamlNode& map, const YamlNode& key, const char* which,
                 const std::string& label, LineTemplate& into);
  bool over(const YamlNode* map, const std::string& label, LineTemplate& into);
  bool hanging(const YamlNode& map, LinePlace& place);
  bool number(const YamlNode& map, const ParamDecl& field, const std::string& label, int& into);
  bool name(const YamlNode& map, LinePlace& place);
  const YamlNode* branch(const Line& line, const YamlNode& map, const LinePlace& place);
  std::string room_of_part(const std::string& terminal) const;

  const Registry& registry_;
  const Draft& draft_;
  TreeReader& reader_;
};

}  // namespace sixty
