#pragma once

#include <vector>

#include "sim/diagnose/library.hpp"
#include "sim/diagnose/observation.hpp"

namespace sixty::diagnose {

/// How reliably people tell what they noticed.
struct Telling {
  std::size_t most = 8;    ///< observations at the most
  std::size_t enough = 6;  ///< what is right is told too until there are so many
  double wrong = 0.05;     ///< share told the other way round
  double left_out = 0.05;  ///< share not told at all
};

/// What people report where signs depart so from what is usual: the clear ones rather than the
/// faint ones, several parts under one name where they can, some of it wrong or left out.
/// `who`: keeps the chances of cases apart. `departures`: of all signs in all spans.
std::vector<Observation> reports_of(const Library& library, const std::vector<float>& departures,
                                    const Telling& telling, std::uint64_t seed, std::uint64_t who);

/// What a check at one sign finds: a meter is right to 3 %, and one look in fifty is mistaken.
Observation found_by_check(const Library& library, const std::vector<float>& departures,
                           std::size_t sign, std::uint64_t seed, std::uint64_t who);

}  // namespace sixty::diagnose
