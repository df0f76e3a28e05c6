#include "sim/diagnose/once.hpp"

#include <algorithm>

namespace sixty::diagnose {
namespace {

using Take = SignSource::Take;
using What = SignSource::What;

constexpr double kWrong = 1.5, kRight = 0.75;  // clearness of a sign that is there, and is not

/// Whether a sign is one of what goes on now; a clock that was behind is so however well it goes.
bool goes_on(const Sign& sign) {
  if (sign.sense == Sense::kMeasured) return false;
  switch (sign.source.what) {
    case What::kEvent:
    case What::kLasting:
    case What::kDense:
      return true;
    case What::kReading:
      return sign.source.take != Take::kLast && sign.source.take != Take::kStill;
    default:
      return false;
  }
}

/// What shows in the last day and at the visit.
class LastDay {
 public:
  LastDay(const std::vector<SignAt>& signs, const std::vector<Usual>& usual, const WatchPlan& plan)
      : signs_(signs), usual_(usual), plan_(plan) {}

  SimTime begins() const { return plan_.until - kDay; }

  /// How clearly, of each sign; one that may be seen in several spans has several.
  std::vector<double> clear_in(const Sighting& seen) const {
    const std::vector<float> all = departures(seen, usual_, signs_);
    std::vector<double> clear;
    const std::size_t last = plan_.spans() - 1;
    for (std::size_t k = 0; k < signs_.size(); ++k) {
      const Sign& sign = *signs_[k].sign;
      if (!goes_on(sign)) continue;
      const bool visit = sign.at_visit || sign.source.what == What::kDense;
      for (std::size_t span = visit ? 0 : last - 1; span <= (visit ? 0 : last); ++span) {
        const std::size_t at = span * signs_.size() + k;
        clear.push_back(clearness(static_cast<double>(all[at]), sign));
      }
    }
    return clear;
  }

 private:
  const std::vector<SignAt>& signs_;
  const std::vector<Usual>& usual_;
  const WatchPlan& plan_;
};

/// Range: 0 to 1; 0 where nothing went wrong.
double share_that_goes_right(const std::vector<double>& before, const std::vector<double>& after) {
  double wrong = 0, right = 0;
  for (std::size_t k = 0; k < before.size(); ++k) {
    if (before[k] < kWrong) continue;
    ++wrong;
    if (after[k] < kRight) ++right;
  }
  return wrong > 0 ? right / wrong : 0;
}

/// A command, or a sound part in the place of the faulty one.
Action deed_at(SimTime at, const Action& put, const SignSource& source) {
  Action deed;
  deed.at = at;
  deed.part = put.part;
  deed.added = true;
  if (source.once) {
    deed.command = *source.once;
  } else {
    deed.fault = put.fault;
    deed.clears = true;
  }
  return deed;
}

bool anything_wrong(const std::vector<double>& clear) {
  return std::any_of(clear.begin(), clear.end(), [](double one) { return one >= kWrong; });
}

}  // namespace

Sighting watch_and_try(Session& session, const std::vector<SignAt>& signs,
                       const std::vector<Usual>& usual, const WatchPlan& plan) {
  const std::vector<Action> as_it_was = session.log();
  Sighting seen = watch(session, signs, plan);
  const LastDay day(signs, usual, plan);
  const std::vector<double> before = day.clear_in(seen);
  if (seen.failed || !anything_wrong(before)) return seen;
  for (const Action& put : as_it_was) {
    if (put.fault == nullptr || put.clears) continue;
    for (std::size_t k = 0; k < signs.size(); ++k) {
      const SignSource& source = signs[k].sign->source;
      if (signs[k].part != put.part || source.what != What::kOnce) continue;
      session.replace_log(as_it_was);
      session.seek(day.begins());
      session.act(deed_at(day.begins(), put, source));
      const Sighting then = watch(session, signs, plan);
      if (then.failed) continue;
      seen.numbers[k] = static_cast<float>(share_that_goes_right(before, day.clear_in(then)));
    }
  }
  return seen;
}

}  // namespace sixty::diagnose
