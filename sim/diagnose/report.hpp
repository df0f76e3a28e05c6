#pragma once

#include <vector>

#include "sim/diagnose/library.hpp"
#include "sim/diagnose/observation.hpp"

namespace sixty::diagnose {

/// How reliably people tell what they noticed.
struct Telling {
  std::size_t most = 8;    ///< observations at the most
  std::size_t enough = 6;  ///< what is right is told too until there are so many
  double wrong = 0.06;     ///< share told the other way round, but for why somebody was called
  double left_out = 0.06;  ///< share not told at all, but for the same
};

/// What people report where signs depart so from what is usual: the clear ones rather than the
/// faint ones, several parts under one name where they can, some of it wrong or left out.
/// `who`: keeps the chances of cases apart. `departures`: of all signs in all spans.
std::vector<Observation> reports_of(const Library& library, const std::vector<float>& departures,
                                    const Telling& telling, std::uint64_t seed, std::uint64_t who);

/// What people answer when they are asked for one sign, wherever it may be: nothing at all when
/// they do not know.
std::vector<Observation> answers_of(const Library& library, const std::vector<float>& departures,
                                    const Sign& sign, const Telling& telling, std::uint64_t seed,
                                    std::uint64_t who);

/// What a check that shows several signs finds: a meter is right to 3 %, one in fifty of what is
/// there is overlooked, and one in five hundred of what is not is seen all the same (judgement).
std::vector<Observation> found_by_check(const Library& library,
                                        const std::vector<float>& departures,
                                        const std::vector<std::size_t>& signs, std::uint64_t seed,
                                        std::uint64_t who);

}  // namespace sixty::diagnose
