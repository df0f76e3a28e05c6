#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include "gui/sound/grain.hpp"

namespace sixty::gui {

/// Lays grains over one another into a stereo stream that never clips: where too much comes
/// together all of it becomes softer for a moment, left and right alike.
class Mixer {
 public:
  /// Most grains that sound at a time; beyond, the softest ends.
  static constexpr std::size_t kMostGrains = 256;

  /// From a frame on, or from now if that is over. `pan`: -1 left .. 1 right, in equal power.
  /// Range: gain >= 0.
  void add(std::shared_ptr<const Grain> grain, double gain, double pan, std::int64_t frame);
  /// The next frames, left and right in turn.
  void mix(std::span<std::int16_t> samples);
  /// Range: 0 .. 1. It is followed within some milliseconds, lest it crackle.
  void set_gain(double gain) { aim_ = gain; }
  /// Lets all that sounds die away within some milliseconds, and nothing begin that was to.
  void hush();

  std::int64_t frame() const { return frame_; }
  std::size_t sounding() const { return sounding_.size(); }

 private:
  struct Sounding {
    std::shared_ptr<const Grain> grain;
    double left = 0, right = 0;
    std::int64_t begins = 0, ends = 0;
    bool fades = false;  ///< it ends before its time
  };
  void lay(const Sounding& one, std::size_t frames);
  void make_room();

  std::vector<Sounding> sounding_;
  std::vector<float> sum_;
  std::int64_t frame_ = 0;
  double aim_ = 1, gain_ = 1;
  double loud_ = 0;  ///< loudest sample of late
};

}  // namespace sixty::gui
