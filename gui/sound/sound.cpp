#include "gui/sound/sound.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

namespace sixty::gui {
namespace {

constexpr double kWidest = 0.85;                      // not quite from the edges
constexpr std::int64_t kLead = kFrameRate * 3 / 100;  // 30 ms, so that the pieces join evenly
constexpr std::int64_t kMostLead = kFrameRate / 5;

}  // namespace

double pan_of(PartId part, const Stage& stage) {
  const Placed* placed = stage.find(part);
  if (placed == nullptr) return 0;
  const auto across = [&](const std::pair<Point, Point>& box) {
    const double width = std::max(box.second.x - box.first.x, 1.0);
    const double share = (placed->pose.at.x - box.first.x) / width;
    return std::clamp(2 * share - 1, -1.0, 1.0) * kWidest;
  };
  const auto [low, high] = stage.case_box();
  const Point at = placed->pose.at;
  const bool in_case = at.x >= low.x && at.x <= high.x && at.y >= low.y && at.y <= high.y;
  return across(in_case ? stage.case_box() : stage.building());
}

Sound::Sound(const Installation& installation, const Stage& stage, Output output) {
  // Parts that sound alike share it.
  std::map<std::tuple<Voice::Kind, double, double>, std::shared_ptr<const Grain>> made;
  for (PartId p = 0; p < installation.parts.size(); ++p) {
    grains_.emplace_back();
    for (const Voice& v : installation.parts[p].part->voices()) {
      std::shared_ptr<const Grain>& grain = made[{v.kind, v.frequency_hz, v.decay_s}];
      if (grain == nullptr) grain = make_grain(v);
      grains_.back().push_back(grain);
    }
    pan_.push_back(pan_of(p, stage));
  }
  follow_volume();
  if (output == Output::kSpeaker)
    speaker_ = std::make_unique<Speaker>([this](std::span<std::int16_t> s) { mix(s); });
}

void Sound::take(const Hearing& hearing) {
  if (!has_device()) return;
  const std::lock_guard lock(mutex_);
  // The run and the loudspeaker each keep their own time: where they have come apart, begin anew.
  const std::int64_t now = mixer_.frame();
  if (due_ < now || due_ > now + kMostLead) due_ = now + kLead;
  for (const Heard& heard : hearing.heard) {
    const std::int64_t at = due_ + std::llround(heard.after_s * kFrameRate);
    mixer_.add(grains_[heard.part][heard.voice], heard.strength, pan_[heard.part], at);
  }
  due_ += std::llround(hearing.lasts_s * kFrameRate);
}

void Sound::hush() {
  const std::lock_guard lock(mutex_);
  mixer_.hush();
}

void Sound::set_volume(float volume) {
  const std::lock_guard lock(mutex_);
  volume_ = std::clamp(volume, 0.0F, 1.0F);
  follow_volume();
}

float Sound::volume() const {
  const std::lock_guard lock(mutex_);
  return volume_;
}

void Sound::mute(bool muted) {
  const std::lock_guard lock(mutex_);
  muted_ = muted;
  follow_volume();
}

bool Sound::muted() const {
  const std::lock_guard lock(mutex_);
  return muted_;
}

/// The ear takes ten decibels for twice as loud. Source: Stevens, A Scale for the Measurement of
/// Loudness (1936); the exponent from memory. So amplitude goes with the power 5/3 of the volume.
void Sound::follow_volume() {
  const auto volume = static_cast<double>(volume_);
  mixer_.set_gain(muted_ ? 0 : std::pow(volume, 5.0 / 3));
}

bool Sound::has_device() const {
  return speaker_ == nullptr || speaker_->state() != Speaker::Is::kMissing;
}

void Sound::mix(std::span<std::int16_t> samples) {
  const std::lock_guard lock(mutex_);
  mixer_.mix(samples);
}

}  // namespace sixty::gui
