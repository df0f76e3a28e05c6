#pragma once

#include <cstdint>

namespace sixty {

/// Friction of armatures: `friction` of the sheet slides; at rest it is so many times as much, and
/// it grows with the speed by a share of itself for each metre a second.
struct FrictionLaw {
  double stiction = 1;
  double per_m_per_s = 0;
};

/// How the film differs from closing to closing about its median, and what working does to it.
struct FilmLaw {
  enum class Shape : std::int64_t {  // as wide as what follows: a state has no gaps
    kLogNormal,
    kPatchy,  ///< one closing in four comes down on a patch that is far worse than the rest
    kWeibull  ///< with the same median and the same spread of the logarithm
  };
  Shape shape = Shape::kLogNormal;
  /// After so many closings, then three times, then seven times as many, half of what there was has
  /// been rubbed off; 0: never.
  std::int64_t rubs_off_after = 0;
};

/// What a swing loses in half a period: the share that the air takes at half as large again a swing
/// as lets a tooth escape. It grows with the swing (a drag by the square of the speed); the rest
/// does not (a drag by the speed, as a constant quality factor has it).
struct SwingLaw {
  double air_share = 0;
};

/// When people want what they want: times of day that a scene gives as chosen ones
/// (ParamDecl::chosen_times). All of one scene change alike, so what goes together stays together.
struct OtherTimes {
  int later_min = 0;   ///< all
  double dropped = 0;  ///< share of the times
  double added = 0;    ///< share of those that stay after which another comes
  int added_after_min = 1;
  bool operator==(const OtherTimes&) const = default;
};

/// What a model of an installation takes for granted, beside what scenes and data sheets say. One
/// set belongs to the model itself; others stand for a world that is not as the model has it.
struct Assumptions {
  const char* name = "own";
  FrictionLaw friction;
  FilmLaw film;
  SwingLaw swing;
  OtherTimes times;
  double parts_stray = 0.2;     ///< least tolerance of the parts of cases
  double largest_severity = 1;  ///< of cases; 1: what a fault's sheet says
};

/// The model's own.
const Assumptions& own_assumptions();
/// For trying a diagnosis only: nothing is built from them, and nothing tuned on them.
const Assumptions& variant_assumptions();
/// A third set, on which stated probabilities may be calibrated.
const Assumptions& calibration_assumptions();

}  // namespace sixty
