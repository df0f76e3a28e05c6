#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "sim/part/declaration.hpp"
#include "sim/scene/mistakes.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty::gui {

/// What a form asks for in one field.
struct FormField {
  enum class Kind : std::uint8_t {
    kParam,  ///< a quantity, count, choice or text, as declared
    kName,   ///< a name that the scene can refer to
    kOneOf,  ///< the name of an entry of a group, or empty
    kTimes,  ///< times of day: "08:00, 08:45"
  };
  Kind kind = Kind::kParam;
  ParamDecl decl;                   ///< name, unit, range, choices, help
  std::string label;                ///< what people call it
  std::string standard;             ///< as it would be written in the field
  std::vector<std::string> labels;  ///< of the choices
  std::map<std::string, std::map<std::string, double>> numbers;  ///< of choices, for sums
  std::string group;                                             ///< of kOneOf
  std::string when_field, when_value;  ///< asked for only if that field has this value
  std::string at;                      ///< where a scene has it
};

/// A list of entries alike, each with fields and perhaps lists of its own.
struct FormGroup {
  std::string name, label, one, help;  ///< "zones", "Zones", "zone"
  std::size_t least = 0, most = 100;
  std::string at;  ///< where a scene has its entries
  std::vector<FormField> fields;
  std::vector<FormGroup> groups;
};

/// What has been filled in: every value as it is written, entries in their order.
struct FormEntry {
  std::map<std::string, std::string> fields;
  std::map<std::string, std::vector<FormEntry>> groups;
  bool operator==(const FormEntry&) const = default;
};

/// A form for scenes, and the text that a filled-in one becomes. Both are data (scenes/forms): the
/// program knows nothing of what is asked for.
class Form {
 public:
  /// Reads the form's file and its scene with gaps. Errors: nothing, reported.
  static std::optional<Form> read(const std::string& fields, const std::string& scene,
                                  const std::string& path, Diagnostics& mistakes);

  /// All that is asked for: a group of one entry.
  const FormGroup& whole() const { return whole_; }
  const std::string& title() const { return whole_.label; }
  /// An entry of a group as it is offered first, with the least number of entries of its own.
  static FormEntry fresh(const FormGroup& group);
  /// Whether a field is asked for beside what else the entry has.
  static bool asked(const FormField& field, const FormEntry& entry);

  /// What is wrong with what was filled in; each with the words that its field has.
  void check(const FormEntry& filled, Diagnostics& mistakes) const;
  /// The scene that it becomes. Errors: nothing, reported.
  std::optional<std::string> scene_of(const FormEntry& filled, Diagnostics& mistakes) const;
  /// What a scene of this form has been filled in with. Errors: nothing, reported with the place
  /// at which the scene is not as the form makes it.
  std::optional<FormEntry> read_back(const YamlNode& scene, const std::string& path,
                                     Diagnostics& mistakes) const;
  /// A scene of this form with other values: what was written into it by hand stays as it is.
  /// Errors: nothing, reported; so where both changed the same lines.
  std::optional<std::string> changed(const std::string& scene_text, const std::string& path,
                                     const FormEntry& filled, Diagnostics& mistakes) const;

 private:
  FormGroup whole_;
  std::string scene_;  ///< with gaps
};

/// The forms that come with the program.
std::vector<Form> all_forms();

}  // namespace sixty::gui
