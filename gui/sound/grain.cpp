#include "gui/sound/grain.hpp"

#include <algorithm>
#include <cmath>
#include <complex>
#include <cstdint>
#include <iterator>

#include "sim/base/math.hpp"

namespace sixty::gui {
namespace {

constexpr double kThousandth = 6.907755278982137;  // ln 1000
constexpr double kPeak = 0.95;
constexpr double kFadeOut_s = 0.004;

constexpr double kGlide_s = 0.012;

/// One tone that dies away.
struct Tone {
  double hz = 0, amplitude = 0, decay_s = 0;  ///< until a thousandth
  double rise_s = 0;
};

void add(const Tone& tone, Grain& grain) {
  const std::complex<double> turn = std::polar(std::exp(-kThousandth / (tone.decay_s * kFrameRate)),
                                               2 * kPi * tone.hz / kFrameRate);
  std::complex<double> now = tone.amplitude;
  const double rise = tone.rise_s > 0 ? 1 / (tone.rise_s * kFrameRate) : 1e9;
  for (std::size_t k = 0; k < grain.size(); ++k) {
    grain[k] += static_cast<float>(now.imag() * std::min(static_cast<double>(k) * rise, 1.0));
    now *= turn;
  }
}

/// The same, but it begins higher and glides down within some ten milliseconds.
void add_gliding(const Tone& tone, double from_hz, Grain& grain) {
  double turns = 0;
  for (std::size_t k = 0; k < grain.size(); ++k) {
    const double t = static_cast<double>(k) / kFrameRate;
    const double fall = std::exp(-kThousandth * t / tone.decay_s);
    grain[k] += static_cast<float>(tone.amplitude * fall * std::sin(2 * kPi * turns));
    turns += (tone.hz + (from_hz - tone.hz) * std::exp(-t / kGlide_s)) / kFrameRate;
  }
}

/// The scrape of the impact itself: noise, the same each time, through a low-pass.
void add_scrape(double amplitude, double lasts_s, double below_hz, Grain& grain) {
  std::uint32_t drawn = 0x2545F491;
  const double share = 1 - std::exp(-2 * kPi * below_hz / kFrameRate);
  double level = 0;
  for (std::size_t k = 0; k < grain.size(); ++k) {
    drawn = drawn * 1664525U + 1013904223U;
    const double noise = static_cast<double>(drawn >> 8U) / (1U << 23U) - 1;
    level += share * (noise - level);
    const double t = static_cast<double>(k) / kFrameRate;
    grain[k] += static_cast<float>(amplitude * std::exp(-kThousandth * t / lasts_s) * level);
  }
}

/// High tones are the first to go. From memory: losses within the metal grow with frequency.
void ring(const Voice& voice, Grain& grain) {
  constexpr double kAmplitudes[] = {1, 0.55, 0.32, 0.18};
  for (std::size_t k = 0; k < std::size(kGongTones); ++k) {
    const double hz = voice.frequency_hz * kGongTones[k];
    if (hz > kFrameRate * 0.45) break;
    add({hz, kAmplitudes[k], voice.decay_s / kGongTones[k], 0.0005}, grain);
  }
}

void click(const Voice& voice, double scrape, Grain& grain) {
  add({voice.frequency_hz, 0.7, voice.decay_s, 0}, grain);
  add({voice.frequency_hz * 2.76, 0.35, voice.decay_s * 0.5, 0}, grain);
  add_scrape(scrape, voice.decay_s * 0.3, voice.frequency_hz * 2.5, grain);
}

/// The wood sounds below, the iron's knock above it, so that small loudspeakers tell it too.
void thump(const Voice& voice, Grain& grain) {
  add_gliding({voice.frequency_hz, 1, voice.decay_s, 0}, voice.frequency_hz * 2.2, grain);
  add({voice.frequency_hz * 4.3, 0.3, voice.decay_s * 0.35, 0.0005}, grain);
  add_scrape(0.4, 0.03, 900, grain);
}

void fade_out(Grain& grain) {
  const auto last = std::min(grain.size(), static_cast<std::size_t>(kFadeOut_s * kFrameRate));
  for (std::size_t k = 0; k < last; ++k)
    grain[grain.size() - 1 - k] *= static_cast<float>(k) / static_cast<float>(last);
}

void level(Grain& grain) {
  float most = 0;
  for (const float s : grain) most = std::max(most, std::fabs(s));
  if (most <= 0) return;
  for (float& s : grain) s *= static_cast<float>(kPeak) / most;
}

}  // namespace

std::shared_ptr<const Grain> make_grain(const Voice& voice) {
  const double lasts_s = std::clamp(voice.decay_s, 0.002, 20.0) + kFadeOut_s;
  auto grain = std::make_shared<Grain>(static_cast<std::size_t>(lasts_s * kFrameRate), 0.0F);
  switch (voice.kind) {
    case Voice::Kind::kTick:
      click(voice, 0.5, *grain);
      break;
    case Voice::Kind::kClick:
      click(voice, 1.2, *grain);
      break;
    case Voice::Kind::kThump:
      thump(voice, *grain);
      break;
    case Voice::Kind::kRing:
      ring(voice, *grain);
      break;
  }
  fade_out(*grain);
  level(*grain);
  return grain;
}

}  // namespace sixty::gui
