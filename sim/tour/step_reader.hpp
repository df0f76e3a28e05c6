#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/scene/fault.hpp"
#include "sim/scene/tree_reader.hpp"
#include "sim/tour/saying.hpp"
#include "sim/tour/tour.hpp"

namespace sixty {

/// Reads what one step of a tour or of a lesson is made of. Mistakes are reported at their places.
class StepReader {
 public:
  /// Order: all that is given outlives it.
  StepReader(const std::string& path, const Installation& installation, const Registry& registry,
             Mistakes& mistakes)
      : installation_(installation),
        mistakes_(mistakes),
        reader_(path, mistakes),
        faults_(registry, mistakes) {}

  /// Its head, text, view, what is lit, and how fast the run goes.
  void read_stop(const YamlNode& node, Stop& stop);
  /// Words in each language. `numbers`: names that may stand in braces besides readings.
  Sayings read_sayings(const YamlNode& node, const std::string& label,
                       const std::vector<NamedNumber>& numbers = {});
  /// Nobody waits for a run of years: no time lies further on than this.
  static constexpr SimTime kLatest = 60 * kDay;
  void refuse_late(const YamlNode& node, const std::string& label);
  /// A time of the scene. Errors: nothing, reported.
  std::optional<SimTime> read_time(const YamlNode& node, const std::string& label);
  void read_number(const YamlNode& node, const ParamDecl& field, double& number);
  std::optional<PartId> part_of(const YamlNode& node, const std::string& label,
                                const std::string& name);
  /// A list of parts.
  std::vector<PartId> read_parts(const YamlNode& node, const std::string& label);
  /// What hands do (`do`) and which faults are put in (`fault`), in order of time.
  std::vector<Action> read_deeds(const YamlNode& step);
  /// Lines of "TIME PART.COMMAND [QUANTITY]".
  std::vector<Action> read_hands(const YamlNode& node);
  /// Reports it where a file is of another scene than this. Returns whether it is of this one.
  bool is_of_scene(const YamlNode& root, const std::string& what);

  const Installation& installation() const { return installation_; }
  TreeReader& tree() { return reader_; }

 private:
  /// The same in each language that has a catalogue with these words, but where the file has its
  /// own.
  void add_catalogued(Written english, const std::vector<NamedNumber>& numbers, Sayings& sayings);
  void read_stretch(const YamlNode& node, Stop& stop);
  void read_view(const YamlNode& node, Stop& stop);
  std::vector<Action> read_faults(const YamlNode& node);

  const Installation& installation_;
  Mistakes& mistakes_;
  TreeReader reader_;
  FaultBook faults_;
};

/// Keys of a step that `read_stop` and `read_deeds` read.
std::vector<std::string> keys_of_stop();

/// The installation of the scene that a file names and that lies beside it, or one folder up.
/// Errors: nullptr, reported.
std::shared_ptr<const Installation> scene_named_in(const YamlNode& root, const std::string& path,
                                                   const std::string& what,
                                                   const Registry& registry,
                                                   Diagnostics& diagnostics);

}  // namespace sixty
