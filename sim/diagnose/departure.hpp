#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

#include "sim/diagnose/watch.hpp"

namespace sixty::diagnose {

/// What a sign's number usually is, and how large a difference from it is noticed.
struct Usual {
  float number = 0;  ///< NaN where there is usually nothing
  float step = 1;    ///< Range: above 0
};

/// What each sign of an installation is usually, in each span: the mean of sound runs. Of what is
/// measured, a difference that sound installations of the same make have among themselves is no
/// sign of anything.
std::vector<Usual> usual_of(const std::vector<Sighting>& sound, const std::vector<SignAt>& signs);
/// The same to who knows one of them well: what is seen and heard is usually as it was with that
/// one, and what differs there from week to week is no sign of anything either; of what is measured
/// only the makers' figures are known. `all`: of several.
std::vector<Usual> usual_with(const std::vector<Sighting>& own, const std::vector<Usual>& all,
                              const std::vector<SignAt>& signs);

/// How far each sign is from what is usual, in steps of what people notice: 1 is just noticed.
/// Range: -kMostSteps to kMostSteps; 0 where nothing can be told.
std::vector<float> departures(const Sighting& seen, const std::vector<Usual>& usual,
                              const std::vector<SignAt>& signs);

/// Where the number of a sign in a span is found in a run that was made with a fault at one place,
/// when it is read as a run with the same fault at another.
using Transposed = std::vector<std::uint32_t>;

/// Departures of all signs, spans after each other, as they are or as they would be elsewhere.
class Shown {
 public:
  Shown(const std::vector<float>& departures, const Transposed* elsewhere = nullptr)
      : departures_(departures.data()),
        from_(elsewhere != nullptr ? elsewhere->data() : nullptr),
        size_(departures.size()) {}
  float operator[](std::size_t k) const { return departures_[from_ != nullptr ? from_[k] : k]; }
  std::size_t size() const { return size_; }

 private:
  const float* departures_;
  const std::uint32_t* from_;
  std::size_t size_;
};

/// Whether a sign means nothing there, because another of its part is there.
bool means_nothing(std::size_t sign, const Shown& shown, const std::vector<SignAt>& signs);
constexpr double kMostSteps = 1000;

/// The same for one number. Units: of the sign.
double departure(double number, const Usual& usual);

/// How clearly a sign is there: its departure, counted the way in which it says so. 1: just.
double clearness(double departure, const Sign& sign);

}  // namespace sixty::diagnose
