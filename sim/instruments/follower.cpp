#include "sim/instruments/follower.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::instruments {
namespace {

constexpr int kPiecesOfHum = 40;         // in half a period
constexpr std::int64_t kHumShown = 400;  // half periods until every indicator has settled in it

}  // namespace

Follower::Values Follower::look() const {
  const Session::CircuitNow circuit = session_.circuit();
  Values values;
  for (const Followed& f : followed_) values.push_back(f.quantity(circuit));
  return values;
}

void Follower::tell(const Values& before, const Values& after, double seconds) {
  for (std::size_t k = 0; k < followed_.size(); ++k)
    followed_[k].indicator->follow(before[k], after[k], seconds);
}

void Follower::step_to(SimTime t) {
  const SimTime from = session_.now();
  session_.run_until(t);
  Values next = look();
  tell(now_, next, to_seconds(t - from));
  now_ = std::move(next);
}

void Follower::run(SimTime until) {
  now_ = look();
  while (session_.now() < until) {
    const SimTime next = std::min(session_.next_change(), until);
    go_through(next - 1);
    // What an event changes at once has no length.
    session_.run_until(next);
    tell(now_, now_, 1e-9);
    now_ = look();
  }
}

/// Nothing happens up to `until`; the network goes its way.
void Follower::go_through(SimTime until) {
  const SimTime began = session_.now();
  while (session_.now() < until) {
    const SimTime now = session_.now();
    const Session::CircuitNow circuit = session_.circuit();
    if (circuit.probe.rests()) {
      step_to(until);
    } else if (circuit.probe.hums()) {
      hum(until);
    } else {
      const SimTime grown = std::max(kMicrosecond, (now - began) / 2);
      step_to(std::min(until, now + std::min(grown, kPiece)));
    }
  }
}

void Follower::hum(SimTime until) {
  const SimTime from = session_.now();
  const double period_s = session_.circuit().network.half_period_s;
  const auto periods = static_cast<std::int64_t>(std::floor(to_seconds(until - from) / period_s));
  const double piece_s = period_s / kPiecesOfHum;
  if (periods < 2) {
    step_to(std::min(until, from + from_seconds(piece_s)));
    return;
  }
  std::vector<Values> wave{now_};
  for (int k = 1; k < kPiecesOfHum; ++k) {
    session_.run_until(from + from_seconds(k * piece_s));
    wave.push_back(look());
  }
  wave.push_back(now_);
  for (std::int64_t n = 0; n < std::min(periods, kHumShown); ++n) {
    for (int k = 0; k < kPiecesOfHum; ++k) {
      const auto at = static_cast<std::size_t>(k);
      tell(wave[at], wave[at + 1], piece_s);
    }
  }
  const double skipped_s =
      static_cast<double>(std::max<std::int64_t>(periods - kHumShown, 0)) * period_s;
  for (const Followed& f : followed_) f.indicator->skip(skipped_s);
  session_.run_until(std::min(until, from + from_seconds(static_cast<double>(periods) * period_s)));
}

}  // namespace sixty::instruments
