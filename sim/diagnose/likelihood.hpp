#pragma once

#include <vector>

#include "sim/diagnose/departure.hpp"
#include "sim/diagnose/observation.hpp"

namespace sixty::diagnose {

/// How vague what people say is (docs in sim/diagnose/README.md). Judgement, but for the first two:
/// of what lay people report some 10 to 15 % is wrong or left out; meters are right to 3 %.
struct Vagueness {
  double wrong = 0.04;          ///< share of what was noticed that is not so
  double overlooked = 0.12;     ///< share of what is said not to be so that is so all the same
  double wrong_reading = 0.04;  ///< of readings of a meter, put in the wrong place for one
  double meter_share = 0.03;
  double alike = 0.7;   ///< by which parts of one make differ, in steps
  double about = 0.35;  ///< of an amount, as a ratio (natural logarithm)
  double check_misses = 0.03, check_invents = 0.005;  ///< of looks on purpose
  double told = 0.85;     ///< share of what people tell readily that they do tell
  double others = 0.6;    ///< how sure it is that who names one place has seen the others right
  double most_told = 6;   ///< things that are told at the least before anything is left out
  double apart = 0.15;    ///< how far what shows in different runs may come together
  std::size_t worst = 3;  ///< of one sign at many parts, those count that fit worst
};

/// How likely an observation is where the signs depart so from what is usual, if it is no mistake.
/// Range: 0 to 1.
double chance_of(const Observation& observation, const Shown& shown,
                 const std::vector<Usual>& usual, const std::vector<SignAt>& signs,
                 const Vagueness& vagueness);

/// How likely it is that somebody notices a sign that is so clear. Range: 0 to 1; one half at 1,
/// nine in ten at 2.
double noticed(double clearness);

/// Departures are compared in ratios: 5 for 6 is as far off as 50 for 60. Nothing is as next to
/// nothing. The inverse takes it back.
double in_ratios(double steps);
double from_ratios(double ratios);

}  // namespace sixty::diagnose
