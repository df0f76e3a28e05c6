#pragma once

#include <memory>
#include <vector>

#include "sim/part/voice.hpp"

namespace sixty::gui {

/// Frames of sound in a second.
constexpr int kFrameRate = 44100;

/// One sound from its beginning to its end: a channel of samples within -1 .. 1.
using Grain = std::vector<float>;

/// What a voice sounds like when its strength is 1. The same each time.
std::shared_ptr<const Grain> make_grain(const Voice& voice);

/// Tones of a gong, as multiples of the lowest. A thin plate that is held in its middle and struck
/// at its rim: only nodal diameters (2, 3, 4, 5) leave the middle at rest. Source: Leissa,
/// Vibration of Plates, NASA SP-160 (1969), free circular plate, Poisson's ratio 0.33: frequency
/// parameters 5.253, 12.23, 21.6, 33.1 (from memory; the tests solve the plate's equation anew).
constexpr double kGongTones[] = {1, 2.33, 4.10, 6.29};

}  // namespace sixty::gui
