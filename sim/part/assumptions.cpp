// Sources. Stiction above sliding friction: textbooks give 1.2 to 1.6 for dry metals, from memory.
// Friction that grows with the speed: R. Stribeck (1902), the branch of lubricated bearings; how
// much: judgement. Films that are patchy, and are rubbed off by wiping: R. Holm, Electric Contacts
// (1967), from memory; how much: judgement. Air drag by the square of the speed beside one by the
// speed: usual in accounts of clock pendulums, from memory; shares: judgement. All else: judgement.
#include "sim/part/assumptions.hpp"

namespace sixty {

const Assumptions& own_assumptions() {
  static const Assumptions own;
  return own;
}

const Assumptions& variant_assumptions() {
  static const Assumptions variant{
      "variant", {1.5, 1.0}, {FilmLaw::Shape::kPatchy, 500}, {0.4}, {7, 0.2, 0.2, 11}, 0.4, 1.25};
  return variant;
}

const Assumptions& calibration_assumptions() {
  static const Assumptions third{
      "calibration", {1.2, 0.3}, {FilmLaw::Shape::kWeibull, 0}, {0.2}, {-4, 0.1, 0.1, 8}, 0.3, 1.1};
  return third;
}

}  // namespace sixty
