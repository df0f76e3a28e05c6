#include "gui/sound/mixer.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::gui {
namespace {

constexpr double kQuarter = 0.78539816339744831;        // a quarter of pi
constexpr double kCeiling = 0.94;                       // highest sample, 1 being the full
constexpr double kRecovers = 1 - 1 / (0.25 * 44100);    // of its loudness a frame
constexpr double kGainStep = 1 / (0.010 * kFrameRate);  // a frame
constexpr std::int64_t kFade = kFrameRate / 100;
constexpr double kFull = 32767;

}  // namespace

void Mixer::add(std::shared_ptr<const Grain> grain, double gain, double pan, std::int64_t frame) {
  if (grain == nullptr || !(gain > 0)) return;
  if (sounding_.size() >= kMostGrains) make_room();
  const double angle = (std::clamp(pan, -1.0, 1.0) + 1) * kQuarter;
  const std::int64_t begins = std::max(frame, frame_);
  const std::int64_t ends = begins + static_cast<std::int64_t>(grain->size());
  sounding_.push_back(
      {std::move(grain), gain * std::cos(angle), gain * std::sin(angle), begins, ends, false});
}

/// How loud each is by now does not matter much here: what was struck softest goes.
void Mixer::make_room() {
  const auto softest = std::min_element(
      sounding_.begin(), sounding_.end(),
      [](const Sounding& a, const Sounding& b) { return a.left + a.right < b.left + b.right; });
  sounding_.erase(softest);
}

void Mixer::hush() {
  const auto silent = [&](const Sounding& one) { return one.begins >= frame_; };
  sounding_.erase(std::remove_if(sounding_.begin(), sounding_.end(), silent), sounding_.end());
  for (Sounding& one : sounding_) {
    one.ends = std::min(one.ends, frame_ + kFade);
    one.fades = true;
  }
}

void Mixer::lay(const Sounding& one, std::size_t frames) {
  const std::int64_t from = std::max(one.begins, frame_);
  const std::int64_t to = std::min(one.ends, frame_ + static_cast<std::int64_t>(frames));
  const auto left = static_cast<float>(one.left);
  const auto right = static_cast<float>(one.right);
  for (std::int64_t k = from; k < to; ++k) {
    float s = (*one.grain)[static_cast<std::size_t>(k - one.begins)];
    if (one.fades) s *= static_cast<float>(one.ends - k) / static_cast<float>(kFade);
    const auto at = static_cast<std::size_t>(2 * (k - frame_));
    sum_[at] += left * s;
    sum_[at + 1] += right * s;
  }
}

void Mixer::mix(std::span<std::int16_t> samples) {
  const std::size_t frames = samples.size() / 2;
  sum_.assign(2 * frames, 0.0F);
  for (const Sounding& one : sounding_) lay(one, frames);
  for (std::size_t k = 0; k < frames; ++k) {
    gain_ += std::clamp(aim_ - gain_, -kGainStep, kGainStep);
    const double left = sum_[2 * k], right = sum_[2 * k + 1];
    loud_ = std::max({loud_ * kRecovers, std::fabs(left), std::fabs(right)});
    const double factor = gain_ * (loud_ > kCeiling ? kCeiling / loud_ : 1) * kFull;
    samples[2 * k] = static_cast<std::int16_t>(std::lround(left * factor));
    samples[2 * k + 1] = static_cast<std::int16_t>(std::lround(right * factor));
  }
  frame_ += static_cast<std::int64_t>(frames);
  const auto over = [&](const Sounding& one) { return one.ends <= frame_; };
  sounding_.erase(std::remove_if(sounding_.begin(), sounding_.end(), over), sounding_.end());
}

}  // namespace sixty::gui
