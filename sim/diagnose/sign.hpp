#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim/diagnose/visit.hpp"
#include "sim/part/registry.hpp"
#include "sim/scene/mistakes.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty::diagnose {

/// How a sign comes to be known.
enum class Sense : std::uint8_t {
  kSeen,      ///< by anybody who passes
  kLooked,    ///< by who looks at it on purpose, in the case or from a ladder
  kHeard,     ///< by anybody near
  kListened,  ///< by who listens at the case
  kMeasured   ///< with an instrument
};

/// On which side of what is usual a number lies when the sign is there.
enum class Side : std::uint8_t { kAbove, kBelow, kEither };

/// What one number is made of a part's run in a span of time.
struct SignSource {
  enum class What : std::uint8_t {
    kReading,  ///< a reading, looked at every hour
    kDense,    ///< a reading, looked at every half second of a visit
    kEvent,    ///< events of one kind
    kValue,    ///< a value of the part as it now is, as an inspection with the tool for it finds it
    kLasting,  ///< from an event of one kind to the next of another
    kOnce      ///< share of what goes wrong there that goes right once something has been done
  };
  enum class Take : std::uint8_t {
    kLast,
    kLeast,
    kMost,
    kMean,
    kChange,   ///< last less first
    kWidth,    ///< most less least
    kCount,    ///< how many
    kSecond,   ///< second of the minute in which the last one came
    kSilence,  ///< time from the last one to the end of the span
    kStill     ///< time from when it last was another to the end of the span
  };
  What what = What::kReading;
  Take take = Take::kLast;
  std::size_t reading = 0;          ///< of the part's declaration
  std::size_t param = 0;            ///< of the same
  std::optional<std::size_t> plus;  ///< what is added to it
  std::uint16_t from = 0, to = 0;   ///< kinds of events
  std::optional<std::size_t> once;  ///< command; none: a sound one of its make takes its place
  double around = 0;  ///< after so much the number begins anew, as on a dial; 0: it does not
};

/// Something that can be seen, heard or measured at a part of a kind, in everyday words: data
/// beside the part. It is there when the number is another than usual by at least what people
/// notice.
struct Sign {
  std::string name;  ///< "slow"
  const Registry::Entry* kind = nullptr;
  std::string says;                ///< "is slow"
  std::vector<std::string> words;  ///< by which it is searched for, besides its own
  SignSource source;
  std::string unit;  ///< SI unit of the number, "1" when it has none
  Side side = Side::kAbove;
  bool by_share = false;  ///< `notice` is a share of what is usual
  double notice = 1;      ///< smallest difference that people notice. Range: above 0
  Sense sense = Sense::kSeen;
  double likely = 0.8;    ///< how likely it is told unasked when it is there
  std::string check;      ///< id of the check that shows it
  bool at_visit = false;  ///< of what happens at a visit; otherwise of what happened before
  std::string unless;     ///< sign of the same part with which this one means nothing; may be empty
};

/// The signs of all part types, in the order of the part types and of their files.
class SignBook {
 public:
  /// Errors: reported, at the sign's place in its file.
  SignBook(const Registry& registry, Mistakes& mistakes);
  const std::vector<Sign>& all() const { return all_; }
  /// What is done at a visit.
  const std::vector<VisitAct>& acts() const { return acts_; }
  /// nullptr if parts of this kind have none of that name.
  const Sign* find(std::string_view name, const Registry::Entry& kind) const;

 private:
  std::vector<Sign> all_;
  std::vector<VisitAct> acts_;
};

/// Reads what can be noticed at one part type.
std::vector<Sign> read_signs(const YamlNode& root, const std::string& file,
                             const Registry::Entry& kind, Mistakes& mistakes);

}  // namespace sixty::diagnose
