#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim/run/session.hpp"

namespace sixty::instruments {

/// One channel of a recorder: what it follows, and the samples.
struct Channel {
  std::string label, unit;
  std::function<double(Session&)> quantity;
  std::vector<double> samples;

  /// Half the smallest step that it can tell, and the limits of its amplifier: 1 % of what it has
  /// seen at most. Source of the combination: as expanded_uncertainty(). Figures: common
  /// practice, no source.
  double uncertainty() const;
  /// What it is set to: holds the largest sample; of volts and amperes a thousandth at least.
  double range() const;
  double largest() const;
};

/// Two-channel recorder: samples at even intervals, each to 12 bits of what the channel's range
/// holds, the least of 1, 2 or 5 times a power of ten that does.
class Recorder {
 public:
  static constexpr std::size_t kMostChannels = 2;
  static constexpr std::size_t kMostSamples = 1'000'000;
  static constexpr int kBits = 12;

  explicit Recorder(SimTime every) : every_(every) {}
  void add(Channel channel) { channels_.push_back(std::move(channel)); }
  /// From one instant up to another. Order: the session is at `from`, or just behind it.
  void run(Session& session, SimTime from, SimTime until);
  const std::vector<Channel>& channels() const { return channels_; }

 private:
  SimTime every_;
  std::vector<Channel> channels_;
};

/// The least of 1, 2 or 5 times a power of ten that is not below a number. Range: > 0.
double range_for(double largest);

}  // namespace sixty::instruments
