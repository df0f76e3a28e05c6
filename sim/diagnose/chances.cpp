#include "sim/diagnose/chances.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "sim/base/math.hpp"
#include "sim/diagnose/silence.hpp"

namespace sixty::diagnose {
namespace {

using How = Observation::How;

constexpr double kLeastExpected = 0.01;

double mistaken(const Observation& o, const Vagueness& v) {
  if (!o.is_looked_at()) return 0;
  if (o.how == How::kReads) return v.wrong_reading;
  return o.how == How::kNot ? v.overlooked : v.wrong;
}

/// Who looks on purpose errs in known ways.
bool is_look(const Observation& o) {
  return o.checked && (o.how == How::kThere || o.how == How::kNot);
}

}  // namespace

Chances::Chances(const Library& library, const std::vector<Observation>& observations,
                 const Vagueness& vagueness)
    : library_(library), observations_(observations), v_(vagueness) {
  std::map<const Sign*, std::vector<std::size_t>> by_sign;
  for (std::size_t o = 0; o < observations.size(); ++o) {
    const Observation& one = observations[o];
    const Sign* sign = library.signs[one.which.front()].sign;
    if (one.checked)
      by_sign[sign].push_back(o);
    else
      together_.push_back({o});
  }
  // In the order of the observations, not of addresses.
  for (auto& [sign, some] : by_sign) together_.push_back(std::move(some));
  std::sort(together_.begin(), together_.end());
  const Silence silence(library, observations, vagueness);
  const auto take = [&](const Shown& shown) {
    add(shown);
    silent_.push_back(silence.chance(shown));
  };
  for (std::size_t k = 0; k < library.cases.size(); ++k) take(library.shown_in(k));
  for (const auto& departures : library.sound) take(departures);
  expect();
  mix();
}

void Chances::add(const Shown& shown) {
  for (const Observation& o : observations_)
    mixed_.push_back(chance_of(o, shown, library_.usual, library_.signs, v_));
}

/// Mean over the suspects, each by its prior and its runs alike.
void Chances::expect() {
  std::vector<double> runs(library_.suspects.size());
  for (const Case& one : library_.cases) runs[one.suspect] += 1;
  expected_.assign(observations_.size(), 0);
  expected_silent_ = 0;
  for (std::size_t run = 0; run < library_.cases.size(); ++run) {
    const std::size_t s = library_.cases[run].suspect;
    const double weight = library_.prior[s] / runs[s];
    for (std::size_t o = 0; o < observations_.size(); ++o) expected_[o] += weight * of(run, o);
    expected_silent_ += weight * silent_[run];
  }
  double weights = 0;  // of early libraries, in which some suspects have no run yet, not 1
  for (std::size_t s = 0; s < runs.size(); ++s) weights += runs[s] > 0 ? library_.prior[s] : 0;
  expected_silent_ /= weights;
  for (std::size_t o = 0; o < observations_.size(); ++o) {
    expected_[o] /= weights;
    if (observations_[o].is_looked_at())
      expected_[o] = std::clamp(expected_[o], kLeastExpected, 1 - kLeastExpected);
  }
}

void Chances::mix() {
  const std::size_t count = observations_.size();
  for (std::size_t k = 0; k < mixed_.size(); ++k) {
    const Observation& one = observations_[k % count];
    const double wrong = mistaken(one, v_);
    if (!is_look(one)) {
      mixed_[k] = (1 - wrong) * mixed_[k] + wrong * expected_[k % count];
    } else if (one.how == How::kThere) {
      mixed_[k] = v_.check_invents + (1 - v_.check_invents - v_.check_misses) * mixed_[k];
    } else {
      mixed_[k] = v_.check_misses + (1 - v_.check_invents - v_.check_misses) * mixed_[k];
    }
  }
  for (double& silent : silent_) silent = (1 - v_.wrong) * silent + v_.wrong * expected_silent_;
  for (const double chance : mixed_) logs_.push_back(det_log(chance));
  for (const double silent : silent_) silent_logs_.push_back(det_log(silent));
}

template <class Log>
double Chances::log_of_all(const Log& log_of_one) const {
  double sum = 0;
  std::vector<double> logs;
  for (const std::vector<std::size_t>& some : together_) {
    logs.clear();
    for (const std::size_t o : some) logs.push_back(log_of_one(o));
    const std::size_t worst = std::min(v_.worst, logs.size());
    std::partial_sort(logs.begin(), logs.begin() + static_cast<std::ptrdiff_t>(worst), logs.end());
    for (std::size_t k = 0; k < worst; ++k) sum += logs[k];
  }
  return sum;
}

double Chances::log_of(std::size_t run) const {
  return log_of_all([&](std::size_t o) { return logs_[at(run, o)]; }) + silent_logs_[run];
}

double Chances::of_both(std::size_t a, std::size_t b, std::size_t observation) const {
  return of(telling_of(a, b, observation), observation);
}

std::size_t Chances::telling_of(std::size_t a, std::size_t b, std::size_t observation) const {
  const Observation& one = observations_[observation];
  const double of_a = of(a, observation), of_b = of(b, observation);
  if (one.how == How::kNot) return of_a <= of_b ? a : b;
  if (one.how != How::kReads) return of_a >= of_b ? a : b;
  const std::size_t sign = one.span * library_.signs.size() + one.which.front();
  const auto departs = [&](std::size_t run) { return std::fabs(library_.shown_in(run)[sign]); };
  return departs(a) >= departs(b) ? a : b;
}

double Chances::log_of_both(std::size_t a, std::size_t b) const {
  const auto log_of_one = [&](std::size_t o) { return logs_[at(telling_of(a, b, o), o)]; };
  return log_of_all(log_of_one) + silent_logs_[a] + silent_logs_[b];
}

double Chances::log_of_apart(const std::vector<std::size_t>& runs) const {
  const auto mean = [&](const auto& chance) {
    double sum = 0;
    for (const std::size_t run : runs) sum += chance(run);
    return sum / static_cast<double>(runs.size());
  };
  return log_of_all([&](std::size_t o) {
           return det_log(mean([&](std::size_t run) { return of(run, o); }));
         }) +
         det_log(mean([&](std::size_t run) { return silent_[run]; }));
}

double Chances::log_of_anything() const {
  return log_of_all([&](std::size_t o) { return det_log(expected_[o]); }) +
         det_log(expected_silent_);
}

}  // namespace sixty::diagnose
