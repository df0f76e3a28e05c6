#pragma once

#include <map>
#include <string>
#include <vector>

#include "sim/diagnose/cure_cost.hpp"
#include "sim/diagnose/ranking.hpp"
#include "sim/diagnose/report.hpp"
#include "sim/diagnose/trial.hpp"

namespace sixty::diagnose {

struct SelfTestPlan {
  std::uint64_t seed = 1000;  ///< of what people tell
  std::size_t threads = 0;
  std::size_t observations = 7;  ///< told or asked for
  std::size_t checks = 2;        ///< as proposed, before it is judged
  bool left_out = false;         ///< as if the library did not know each trial's fault
  bool inverted = false;         ///< one thing that was told is the other way round
  Telling telling{7, 0};
  RankingOptions ranking;
};

/// One case whose fault is known, and what was made of it.
struct Tried {
  std::vector<std::pair<std::size_t, double>> truths;  ///< suspects, and how severe
  std::vector<Observation> told;
  std::vector<std::string> made;  ///< checks
  std::size_t place = 0;          ///< of the truth in the ranking, from 1; 0: not in it
  double p_true = 0, p_first = 0;
  double brier = 0;
  std::size_t first = 0;  ///< suspect that was ranked first
  bool first_right = false;
  bool none_first = false, none_in_two = false;
  std::size_t checks = 0;      ///< till one group had nine in ten, at most kMostChecks
  bool part_in_three = false;  ///< a suspect of the same part among the first three
  bool all_in_five = false;    ///< each truth among the first five, alone or in a pair
  CureCosts costs;             ///< from what was told on
};

constexpr std::size_t kMostChecks = 8;

/// Means over all cases.
struct Scores {
  double top1 = 0, top3 = 0, top5 = 0, all5 = 0, part3 = 0, mean_p_true = 0, ece = 0, brier = 0;
  double confidently_wrong = 0, none_first = 0, none_in_two = 0, mean_checks = 0;
  std::size_t by_hand = 0;                      ///< cases of what hands do wrong
  double by_hand_in_three = 0;                  ///< share of those in which it was within three
  double top1_by_fault = 0, top3_by_fault = 0;  ///< means over faults, not cases
};

/// How often one fault was tried, and was first of all.
struct OfFault {
  int cases = 0, right = 0, in_three = 0;
};

struct SelfTest {
  std::vector<Tried> tried;
  Scores scores;
  CureCosts costs;                  ///< of all cases
  std::vector<std::size_t> groups;  ///< of suspects that nothing tells apart
  /// By the faults' numbers.
  std::map<std::string, OfFault> per_fault(const Library& library) const;
};

/// Tells of each trial what people would report, and ranks that. The same for any number of
/// threads. Order: the library is filled.
SelfTest self_test(const Library& library, const std::vector<Trial>& trials,
                   const SelfTestPlan& plan, const CheckBook& checks, const OnProgress& told);

/// Mean distance of stated from found frequencies, in ten bins with as many cases each. Source: M.
/// Naeini, G. Cooper & M. Hauskrecht, "Obtaining well calibrated probabilities using Bayesian
/// binning", AAAI (2015), with equal counts (from memory).
double calibration_error(std::vector<std::pair<double, bool>> stated_and_right);

}  // namespace sixty::diagnose
