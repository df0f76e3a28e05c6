#pragma once

#include <string>
#include <vector>

#include "sim/exhibit/exhibit.hpp"
#include "sim/tour/step_reader.hpp"

namespace sixty::exhibit {

/// Reads the pieces of runs that an exhibit puts on; what is wrong is reported at its place.
class TakeReader {
 public:
  enum class Of : std::uint8_t { kStory, kFirst, kHand, kGuess };

  /// Order: all that is given outlives it.
  TakeReader(const std::string& path, const Installation& installation, const Registry& registry,
             Mistakes& mistakes)
      : steps_(path, installation, registry, mistakes),
        reader_(steps_.tree()),
        installation_(installation) {}

  /// `before`: deeds of the piece that it goes on from; they stay done.
  Take read(const YamlNode& node, Of of, const std::vector<Action>& before = {});
  StepReader& steps() { return steps_; }

 private:
  void read_run(const YamlNode& node, const std::vector<Action>& before, Take& take);
  void read_facts(const YamlNode& node, Take& take, std::vector<NamedNumber>& numbers);
  void check_lengths(const YamlNode& node, const Sayings& sayings, const std::string& label);
  Sayings words(const YamlNode& node, const char* key, bool needed,
                const std::vector<NamedNumber>& numbers);

  StepReader steps_;
  TreeReader& reader_;
  const Installation& installation_;
};

}  // namespace sixty::exhibit
