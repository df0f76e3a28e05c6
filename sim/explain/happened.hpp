#pragma once

#include <optional>
#include <vector>

#include "sim/explain/chain.hpp"
#include "sim/explain/link.hpp"
#include "sim/explain/records.hpp"

namespace sixty::explain {

/// The causes of something that happened, back to the first within reach, each held against the
/// same event of a sound run. What one part did in a row is one of them.
class HappenedChain {
 public:
  /// Order: both lists of records outlive it.
  HappenedChain(const Kept& happened, const std::vector<Kept>& ours,
                const std::vector<Kept>& sound);

  /// Where it first goes otherwise than in a sound run: another voltage, another delay, a
  /// step at another time, or an event that a sound run has not.
  std::optional<Behind> first_that_differs(const Installation& scene) const;

  /// From the first cause to what happened, at most kMostLinks: first of all what is behind it that
  /// it goes otherwise, if anything does (`behind`, as of chain_behind()), then those causes that
  /// differ, then those nearest to what happened.
  std::vector<Link> links(const Installation& scene, std::vector<Link> behind) const;

 private:
  /// What one part did in a row.
  struct Cause {
    const Kept* event = nullptr;   ///< the last of it
    const Kept* driven = nullptr;  ///< that which tells of the volts at its coil, if any does
    const Kept* twin = nullptr;    ///< the same event of the sound run
    const Kept* twin_driven = nullptr;
  };
  bool has_other_delay(std::size_t cause) const;
  bool differs(std::size_t cause, const Installation& scene) const;
  /// By how much it comes later than in the sound run, if it is much.
  std::optional<SimTime> shift(std::size_t cause) const;
  std::optional<SimTime> delay(std::size_t cause) const;
  std::optional<SimTime> twins_delay(std::size_t cause) const;
  /// Since an earlier cause: of both runs, `when sound` if it is another there.
  struct Since {
    std::size_t cause = 0;
    SimTime delay = 0;
    std::optional<SimTime> when_sound;
  };
  std::optional<Since> since(std::optional<std::size_t> told, std::size_t cause) const;
  std::vector<std::size_t> chosen(std::size_t most, const Installation& scene) const;
  /// `told`: the cause that is told before it, if any is.
  Link link_of(std::size_t cause, std::optional<std::size_t> told, const Installation& scene) const;
  std::string text_of(std::size_t cause, std::optional<std::size_t> told,
                      const Installation& scene) const;

  std::vector<Cause> causes_;  ///< in order of time
};

}  // namespace sixty::explain
