#include "sim/diagnose/next_check.hpp"

#include <algorithm>

#include "sim/diagnose/belief.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::size_t kMostSuspects = 40;
constexpr double kMisread = 0.04;        // a check at the case goes wrong so often
constexpr double kLeastGainBits = 0.02;  // less tells nothing

/// The leaders, "nothing" and "none of these" as one belief each.
struct Field {
  std::vector<double> beliefs;
  std::vector<std::size_t> suspects;  ///< of the first of them
};

Field field_of(const Ranking& ranking) {
  Field field;
  double rest = ranking.none_of_these + ranking.sound;
  for (std::size_t k = 0; k < ranking.ranked.size(); ++k) {
    if (k < kMostSuspects) {
      field.beliefs.push_back(ranking.ranked[k].probability);
      field.suspects.push_back(ranking.ranked[k].suspect);
    } else {
      rest += ranking.ranked[k].probability;
    }
  }
  field.beliefs.push_back(rest);
  return field;
}

bool was_observed(std::size_t sign, const std::vector<Observation>& observations) {
  return std::any_of(observations.begin(), observations.end(), [&](const Observation& o) {
    return o.which.size() == 1 && o.which.front() == sign;
  });
}

/// Chance that each of the field finds the sign, by the runs that fit what was observed.
class Finds {
 public:
  Finds(const Library& library, const Ranking& ranking) {
    runs_.resize(library.suspects.size());
    for (const Ranked& one : ranking.ranked) {
      for (const auto& [run, weight] : one.runs) runs_[one.suspect].emplace_back(run, weight);
    }
    library_ = &library;
  }
  double of(std::size_t suspect, std::size_t sign) const {
    double found = 0;
    for (const auto& [run, weight] : runs_[suspect]) {
      const double clear = clearness(static_cast<double>(library_->cases[run].departures[sign]),
                                     *library_->signs[sign].sign);
      found += weight * noticed(clear);
    }
    return kMisread + (1 - 2 * kMisread) * found;
  }

 private:
  const Library* library_ = nullptr;
  std::vector<std::vector<std::pair<std::size_t, double>>> runs_;
};

}  // namespace

std::vector<Proposal> next_checks(const Library& library, const Ranking& ranking,
                                  const std::vector<Observation>& observations,
                                  const CheckBook& checks, std::size_t most) {
  const Field field = field_of(ranking);
  const double before = entropy_bit(field.beliefs);
  const Finds finds(library, ranking);
  std::vector<Proposal> proposals;
  for (std::size_t sign = 0; sign < library.signs.size(); ++sign) {
    const Check* check = checks.find(library.signs[sign].sign->check);
    if (check == nullptr || was_observed(sign, observations)) continue;
    std::vector<double> yes;
    double likely = 0;
    for (std::size_t k = 0; k < field.suspects.size(); ++k) {
      yes.push_back(finds.of(field.suspects[k], sign));
      likely += field.beliefs[k] * yes.back();
    }
    yes.push_back(kMisread);  // of what is not in the library nothing is known
    likely += field.beliefs.back() * kMisread;
    const double gain = before - entropy_after_bit(field.beliefs, yes);
    if (gain >= kLeastGainBits) proposals.push_back({check, sign, gain, likely, cost_min(*check)});
  }
  std::stable_sort(proposals.begin(), proposals.end(), [](const Proposal& a, const Proposal& b) {
    return a.gain_bits * b.cost > b.gain_bits * a.cost;
  });
  if (proposals.size() > most) proposals.resize(most);
  return proposals;
}

}  // namespace sixty::diagnose
