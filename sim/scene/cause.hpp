#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace sixty {

/// What faults come of, so that what is known of an installation's past speaks for some and against
/// others.
enum class Cause : std::uint8_t {
  kWear,       ///< what moves wears
  kAge,        ///< what gets old by itself: insulation, springs, cells, capacitors
  kDirt,       ///< dust, films, soot
  kGum,        ///< oil that has become thick, or is gone
  kOil,        ///< oil where none belongs
  kDrain,      ///< charge that is used up
  kOverload,   ///< more current than is borne, or for longer
  kOutage,     ///< the mains have failed
  kHands,      ///< something was switched, pressed, pulled, stopped
  kResetting,  ///< something was set by whoever sets clocks
  kAdjusting,  ///< a screw or blade was set by whoever works on it
  kFitting,    ///< something was put in or wired
  kPaper,      ///< what is punched was punched or put in wrong
  kMoving,     ///< it was carried or hung anew, or the wall has settled
  kKnocks,
  kDamp,
  kCold,
  kHeat,
  kThunder
};
constexpr std::size_t kCauses = 19;

/// Their words in files, in this order.
const std::vector<std::string>& cause_words();

}  // namespace sixty
