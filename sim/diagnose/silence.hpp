#pragma once

#include <vector>

#include "sim/diagnose/library.hpp"
#include "sim/diagnose/likelihood.hpp"
#include "sim/diagnose/observation.hpp"

namespace sixty::diagnose {

/// What people did not say. Who complains of one thing tells others too, the more readily the
/// plainer they are; so a run in which much shows that nobody told of is less likely. Signs of one
/// name at parts of one kind are told together or not at all.
class Silence {
 public:
  /// Order: all of it outlives this.
  Silence(const Library& library, const std::vector<Observation>& observations,
          const Vagueness& vagueness);
  /// How likely it is that in such a run no more was told. Range: 0 to 1.
  double chance(const Shown& shown) const;

 private:
  struct Theme {
    std::vector<std::size_t> signs;
    double likely = 0;  ///< that it is told when it is there
    bool mentioned = false, unseen = false;
    bool told = false;                 ///< in passing, not found by a check
    bool everywhere = false;           ///< places were told that nobody can name one by one
    std::vector<std::size_t> unnamed;  ///< of the signs, where places were named
  };
  double most_clear(const std::vector<std::size_t>& signs, const Shown& shown) const;

  const Library& library_;
  const Vagueness& vagueness_;
  std::vector<Theme> themes_;
  double told_ = 0;  ///< how many themes
};

}  // namespace sixty::diagnose
