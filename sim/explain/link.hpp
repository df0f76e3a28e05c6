#pragma once

#include <cstdint>
#include <string>
#include <utility>
#include <vector>

#include "sim/base/time.hpp"
#include "sim/scene/installation.hpp"

namespace sixty::explain {

/// What was so, and what was needed or is so when sound.
struct Quantity {
  std::string name, unit;
  double measured = 0, expected = 0;
};

/// One step of an answer: what was so at a part, measured against what was needed or what a sound
/// one has.
struct Link {
  enum class What : std::uint8_t {
    kDeed,
    kContact,
    kVolts,
    kNeed,
    kDrop,
    kDraws,
    kCondition,
    kReading,
    kValue,
    kHand
  };
  What what = What::kDeed;
  SimTime at = 0;
  PartId part = 0;
  std::string quantity, unit;  ///< empty: there is no number
  double measured = 0, expected = 0;
  std::string text;            ///< one sentence
  std::vector<Quantity> also;  ///< of a value: others of that part that are not as they were
};

/// One with numbers; its sentence is yet to be put in.
Link quantity_link(Link::What what, SimTime at, PartId part, Quantity quantity);
/// Whether they have come to a value that is another, or to a hand.
bool ends_at_root(const std::vector<Link>& links);

/// So many are told at the most.
constexpr std::size_t kMostLinks = 5;

/// Name of a kind of link, for data.
const char* name_of(Link::What what);
/// What a reading says, for people.
std::string value_text(double value, const NamedDecl& reading);
/// What is so, and what is when sound: nothing at all in the unit of the other, "14 mm" and "0 mm".
std::pair<std::string, std::string> both_texts(double ours, double sound, const std::string& unit);
/// An instant for people; with its date after the first week.
std::string when_text(const Installation& scene, SimTime t);

}  // namespace sixty::explain
