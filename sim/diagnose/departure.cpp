#include "sim/diagnose/departure.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace sixty::diagnose {
namespace {

constexpr double kBeyondOthers = 2;  // standard deviations of sound installations
constexpr double kLeastStep = 1e-12;
constexpr double kNothing = 0.05;  // steps; less is not worth keeping

/// `of_one`: all are of one installation, so what differs among them is chance.
Usual usual_number(const std::vector<Sighting>& sound, std::size_t k, const Sign& sign,
                   bool of_one) {
  double sum = 0, squares = 0;
  int known = 0;
  for (const Sighting& one : sound) {
    const auto number = static_cast<double>(one.numbers[k]);
    if (std::isnan(number)) continue;
    sum += number;
    squares += number * number;
    ++known;
  }
  if (known == 0) return {std::numeric_limits<float>::quiet_NaN(), 1};
  const double mean = sum / known;
  const double spread = std::sqrt(std::max(squares / known - mean * mean, 0.0));
  const double notice = sign.by_share ? sign.notice * std::fabs(mean) : sign.notice;
  const bool counts = of_one || sign.sense == Sense::kMeasured;
  const double beyond = counts ? kBeyondOthers * spread : 0;
  const double step = std::max({notice, beyond, kLeastStep});
  return {static_cast<float>(mean), static_cast<float>(step)};
}

std::vector<Usual> usual_numbers(const std::vector<Sighting>& sound,
                                 const std::vector<SignAt>& signs, bool of_one) {
  std::vector<Usual> usual;
  if (sound.empty()) return usual;
  for (std::size_t k = 0; k < sound.front().numbers.size(); ++k)
    usual.push_back(usual_number(sound, k, *signs[k % signs.size()].sign, of_one));
  return usual;
}

}  // namespace

std::vector<Usual> usual_of(const std::vector<Sighting>& sound, const std::vector<SignAt>& signs) {
  return usual_numbers(sound, signs, false);
}

std::vector<Usual> usual_with(const std::vector<Sighting>& own, const std::vector<Usual>& all,
                              const std::vector<SignAt>& signs) {
  std::vector<Usual> usual = usual_numbers(own, signs, true);
  for (std::size_t k = 0; k < usual.size(); ++k) {
    if (signs[k % signs.size()].sign->sense == Sense::kMeasured) usual[k] = all[k];
  }
  return usual;
}

double departure(double number, const Usual& usual) {
  const auto mean = static_cast<double>(usual.number);
  if (std::isnan(number) || std::isnan(mean)) return 0;
  return std::clamp((number - mean) / static_cast<double>(usual.step), -kMostSteps, kMostSteps);
}

bool means_nothing(std::size_t sign, const Shown& shown, const std::vector<SignAt>& signs) {
  const std::size_t unless = signs[sign].unless;
  return unless != kNoSign &&
         clearness(static_cast<double>(shown[unless]), *signs[unless].sign) >= 1;
}

std::vector<float> departures(const Sighting& seen, const std::vector<Usual>& usual,
                              const std::vector<SignAt>& signs) {
  std::vector<float> all;
  all.reserve(seen.numbers.size());
  for (std::size_t k = 0; k < seen.numbers.size(); ++k) {
    const double steps = departure(static_cast<double>(seen.numbers[k]), usual[k]);
    all.push_back(std::fabs(steps) < kNothing ? 0.0F : static_cast<float>(steps));
  }
  for (std::size_t k = 0; k < all.size(); ++k) {
    // What means nothing for the whole means nothing for each half day either.
    if (means_nothing(k % signs.size(), all, signs)) all[k] = 0;
  }
  return all;
}

double clearness(double departure, const Sign& sign) {
  switch (sign.side) {
    case Side::kAbove:
      return departure;
    case Side::kBelow:
      return -departure;
    case Side::kEither:
      break;
  }
  return std::fabs(departure);
}

}  // namespace sixty::diagnose
