#pragma once

#include <memory>
#include <vector>

#include "gui/strip/scribe.hpp"
#include "sim/instruments/order.hpp"

namespace sixty::gui {

/// A channel of a recorder, as a lane that is written with its leads laid on. `name`: for people.
/// Range: order.is_electrical().
LaneOf lane_of_channel(const instruments::Order& order, std::string name);

/// The lanes of a recorder: written by a run of its own, which feels its leads from the start, so
/// that what the others show is the run that nothing is laid on.
class Recording {
 public:
  explicit Recording(std::shared_ptr<const Installation> installation)
      : installation_(std::move(installation)) {}
  const std::vector<LaneOf>& channels() const { return channels_; }
  /// What is recorded, and what each channel reads now. Returns whether the channels are others.
  bool set(const std::vector<LaneOf>& channels, std::vector<double> now);
  /// The run that is written, and what of it is wanted.
  void follow(const std::shared_ptr<const std::vector<Action>>& log, const Scribe::Wanted& wanted);
  /// Puts what the channels read now before all other lanes' values.
  void tell(std::vector<double>& values) const;
  /// Tiles with the channels before the other lanes; no numbers where they are not written yet.
  std::vector<std::shared_ptr<const Tile>> beside(
      std::vector<std::shared_ptr<const Tile>> others) const;
  void wait() const;

 private:
  using Log = std::shared_ptr<const std::vector<Action>>;
  std::shared_ptr<const Installation> installation_;
  std::vector<LaneOf> channels_;
  std::vector<double> now_;
  Log log_, laid_;                  ///< without and with the leads
  std::unique_ptr<Scribe> scribe_;  ///< as soon as something is recorded
};

}  // namespace sixty::gui
