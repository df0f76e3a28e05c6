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
  double about = 0.35;  ///< of an amount, as a ratio (natural logarithm)
};

/// How likely an observation is where the signs depart so from what is usual, if it is no mistake.
/// `departures`: of all signs in all spans. Range: 0 to 1.
double chance_of(const Observation& observation, const std::vector<float>& departures,
                 const std::vector<Usual>& usual, const std::vector<SignAt>& signs,
                 const Vagueness& vagueness);

/// How likely it is that somebody notices a sign that is so clear. Range: 0 to 1; one half at 1,
/// nine in ten at 2.
double noticed(double clearness);

}  // namespace sixty::diagnose
