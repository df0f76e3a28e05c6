#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "sim/part/registry.hpp"
#include "sim/scene/blueprint.hpp"
#include "sim/scene/cause.hpp"
#include "sim/scene/course.hpp"

namespace sixty {

/// How common a fault is in old installations. As weights 1 : 3 : 8 (judgement, not data).
enum class HowOften : std::uint8_t { kRare, kOccasional, kFrequent };
double prior_weight(HowOften how_often);
const char* how_often_text(HowOften how_often);

/// What becomes of one value of the part that a fault strikes.
struct FaultChange {
  enum class Form : std::uint8_t {
    kValue,   ///< it is this
    kFactor,  ///< it is so many times what it was
    kAdded,   ///< it is so much more than it was
  };
  std::size_t param = 0;  ///< of the part's declaration
  Form form = Form::kValue;
  bool by_ratio = false;  ///< between mild and severe in equal ratios, otherwise in equal steps
  Value mild, severe;     ///< at a severity of next to nothing, and of 1
};

/// A command that was given to the part, as whoever did it would say.
struct FaultAct {
  std::size_t command = 0;
  double mild = 0, severe = 0;  ///< its quantity, if it takes one
  int least_times = 1, most_times = 1;
};

/// A value that the part must have for a fault to strike it.
struct FaultNeed {
  std::size_t param = 0;
  Value value;
};

/// One way in which a part of a kind can be out of order: data beside the part.
struct Fault {
  std::string number;             ///< "F13"
  std::string name;               ///< "minute-contact-film"
  std::vector<std::string> also;  ///< other numbers and names for the same fault elsewhere
  const Registry::Entry* kind = nullptr;
  std::string title, seen, check, remedy, caution, source;
  HowOften how_often = HowOften::kOccasional;
  std::vector<Cause> comes_of;  ///< may be empty: what is known beforehand says nothing of it
  double typical = 0.5;         ///< severity, if nobody says one
  std::vector<FaultNeed> where;
  std::vector<FaultChange> changes;
  std::vector<FaultAct> acts, undone_by;  ///< as it comes into force, and as it goes
  std::vector<std::size_t> cured_by;      ///< commands of the part that take it away
  std::vector<std::size_t> eased_by;      ///< commands after which it grows again from nothing
  Course course;                          ///< if nobody says one
};

/// "F13 minute-contact-film".
std::string full_name(const Fault& fault);
/// Whether it goes by this number or name.
bool goes_by(const Fault& fault, std::string_view id);
/// The value that a change makes of one that stood before it, within the range that it has as a
/// parameter. Range: severity > 0; above 1 it is worse than the severe one.
Value changed_value(const ParamDecl& decl, const FaultChange& change, const Value& before,
                    double severity);
/// What is written behind the command, within the range that it may have. Range: as above.
double given_value(const ParamDecl& argument, const FaultAct& act, double severity);
/// Whether it would change anything on a part with these values.
bool fits(const Fault& fault, const PartInstance& part);

/// The faults of all part types, in order of their numbers.
class FaultBook {
 public:
  /// Errors: reported, at the fault's place in its file.
  FaultBook(const Registry& registry, Mistakes& mistakes);
  const std::vector<std::shared_ptr<const Fault>>& all() const { return all_; }
  /// nullptr if there is none of that number or name for parts of this kind.
  std::shared_ptr<const Fault> find(std::string_view id, const Registry::Entry& kind) const;

 private:
  std::vector<std::shared_ptr<const Fault>> all_;
};

/// Reads what can strike one part type.
std::vector<std::shared_ptr<const Fault>> read_faults(const YamlNode& root, const std::string& file,
                                                      const Registry::Entry& kind,
                                                      Mistakes& mistakes);

}  // namespace sixty
