#pragma once

#include <string>

#include "sim/part/part.hpp"

namespace sixty {

/// The drive of a coil that had the least to spare: volts that arrived over volts that its pull-in
/// needs. Plain, for a part's state.
///
/// What arrives is what a meter would show once all currents are steady (Located::arrives_v); at a
/// drive in vain, the volts at which it stood. A drive in vain that was only too short says nothing
/// of volts, and does not count. What a bouncing contact takes away and gives back is one drive,
/// and the most that arrived in it counts.
class LeastMargin {
 public:
  /// An armature has started, or was held. `extra_load_n`: of another mechanism, as it loads the
  /// armature now.
  void drove(const circuit::Located& drive, const circuit::Coil& coil, double extra_load_n,
             SimTime now);
  /// Gap or spring were changed.
  void forget_build() { pulls_in_a_ = 0; }
  /// Nothing, if it was never driven.
  void report(Report& report, const std::string& group, const std::string& part,
              const Reader& r) const;

 private:
  struct Drive {
    double arrived_v = 0, needed_v = 0;  ///< needed 0: there was none yet
    SimTime at = 0;
  };
  Drive weakest() const;

  Drive least_;                         ///< of those before the latest
  Drive latest_;                        ///< may yet be given more
  double pulls_in_a_ = 0, load_n_ = 0;  ///< found last, and for which load; 0: to be found
};

}  // namespace sixty
