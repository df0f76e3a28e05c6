#pragma once

#include <vector>

#include "sim/diagnose/library.hpp"
#include "sim/diagnose/likelihood.hpp"
#include "sim/diagnose/observation.hpp"

namespace sixty::diagnose {

/// How likely what was observed is in each run of a library: its cases, then its sound runs.
class Chances {
 public:
  /// Order: all of it outlives this.
  Chances(const Library& library, const std::vector<Observation>& observations,
          const Vagueness& vagueness);

  /// Of one observation, with mistakes counted in. Range: 0 to 1.
  double of(std::size_t run, std::size_t observation) const { return mixed_[at(run, observation)]; }
  /// The same before anything is known.
  const std::vector<double>& expected() const { return expected_; }

  /// Of all that was observed and of what was not told. Units: natural logarithm.
  double log_of(std::size_t run) const;
  /// The same if the faults of two runs are there at once: what shows in either shows.
  double log_of_both(std::size_t a, std::size_t b) const;
  /// Of one observation, then.
  double of_both(std::size_t a, std::size_t b, std::size_t observation) const;
  /// The same if what happens in these runs happened independently of each other: for what no
  /// single run shows together though each of it is shown by some. Range: at least one run.
  double log_of_apart(const std::vector<std::size_t>& runs) const;
  /// The same where nothing is known of what happens.
  double log_of_anything() const;

 private:
  void add(const Shown& shown);
  void expect();
  void mix();
  std::size_t at(std::size_t run, std::size_t observation) const {
    return run * observations_.size() + observation;
  }
  /// Which of two runs an observation is of when both faults are there.
  std::size_t telling_of(std::size_t a, std::size_t b, std::size_t observation) const;
  template <class Log>
  double log_of_all(const Log& log_of_one) const;

  const Library& library_;
  const std::vector<Observation>& observations_;
  const Vagueness& v_;
  std::vector<double> mixed_;  ///< by run, then by observation
  std::vector<double> silent_;
  std::vector<double> logs_, silent_logs_;  ///< of both
  std::vector<double> expected_;
  double expected_silent_ = 1;
  std::vector<std::vector<std::size_t>> together_;  ///< observations of one sign, by one check
};

}  // namespace sixty::diagnose
