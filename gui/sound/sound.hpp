#pragma once

#include <memory>
#include <mutex>
#include <vector>

#include "gui/sound/ear.hpp"
#include "gui/sound/mixer.hpp"
#include "gui/sound/speaker.hpp"
#include "gui/views/stage.hpp"

namespace sixty::gui {

/// What the bench sounds like: takes what was heard, and plays it from where the parts stand. May
/// be used from several threads.
class Sound {
 public:
  enum class Output : std::uint8_t { kSpeaker, kNone };
  /// Order: made before the threads that use it. `stage`: with its figures drawn.
  Sound(const Installation& installation, const Stage& stage, Output output = Output::kSpeaker);

  void take(const Hearing& hearing);
  /// Lets all that sounds die away at once: the run has jumped elsewhere.
  void hush();
  /// Range: 0 .. 1; half is heard as about half as loud.
  void set_volume(float volume);
  float volume() const;
  void mute(bool muted);
  bool muted() const;
  /// Whether it can be heard at all; true while the loudspeaker is still being opened.
  bool has_device() const;
  /// Whether anybody would hear it: if not, nobody need listen.
  bool is_wanted() const { return has_device() && !muted(); }
  /// The next samples, left and right in turn: what the loudspeaker gets.
  void mix(std::span<std::int16_t> samples);

 private:
  void follow_volume();

  mutable std::mutex mutex_;
  std::vector<std::vector<std::shared_ptr<const Grain>>> grains_;  ///< of each part's voices
  std::vector<double> pan_;                                        ///< of each part
  Mixer mixer_;
  std::int64_t due_ = -1;  ///< frame at which the next hearing begins
  float volume_ = 0.6F;
  bool muted_ = false;
  std::unique_ptr<Speaker> speaker_;  // last: its threads use all of the others
};

/// Where a part is heard from: -1 left .. 1 right. Those in the case by their place on its board,
/// the others by their place in the building; what is not on the stage in the middle.
double pan_of(PartId part, const Stage& stage);

}  // namespace sixty::gui
