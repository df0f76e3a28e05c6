#pragma once

#include <vector>

#include "sim/circuit/memo.hpp"

namespace sixty::circuit {

/// How hot the fuses of a running network are, and which melts next. The heat lies beside the
/// network's state and not in it: until it melts a fuse changes nothing, so that equal moments are
/// found equal whatever the fuses have carried before.
class Fuses {
 public:
  Fuses() = default;
  explicit Fuses(std::size_t count) : heat_(count, 0.0), melted_(count, 0) {}

  /// A stretch begins: finds when it melts a fuse. A fuse whose contact is closed again is a new
  /// one.
  void expect(const Stretch& stretch, SimTime began, const Inputs& inputs);
  /// What has flowed has warmed them.
  void follow(const Ledger& ledger);
  /// A stretch is left at a cut.
  void follow(const Stretch& stretch, const Cut& cut);
  /// kNever while none will.
  SimTime melts_at() const { return melts_at_; }
  /// The next one melts. Order: only when there is one.
  Located melt(const Network& network, SimTime began);
  double heat(std::size_t fuse) const { return heat_[fuse]; }
  std::uint64_t hash(std::uint64_t h) const;

 private:
  double melting_time_s(const Stretch& stretch, std::size_t fuse) const;
  double within_stretch_s(const Stretch& stretch, std::size_t fuse) const;

  std::vector<double> heat_;  // at the stretch's start, share of what melts
  std::vector<std::uint8_t> melted_;
  SimTime melts_at_ = kNever;
  std::size_t next_ = 0;
};

}  // namespace sixty::circuit
