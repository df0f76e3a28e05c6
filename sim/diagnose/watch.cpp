#include "sim/diagnose/watch.hpp"

#include <algorithm>
#include <map>

#include "sim/diagnose/tally.hpp"

namespace sixty::diagnose {
namespace {

constexpr SimTime kLookEvery = kHour;
constexpr SimTime kLookAt = 20 * kMinute + 50 * kSecond;  // when nothing moves, as a rule
constexpr SimTime kDenseStep = 500 * kMillisecond, kDenseFrom = 250 * kMillisecond;

/// Looks and listens through a run.
class Watcher final : public TraceSink {
 public:
  Watcher(const Installation& installation, const std::vector<SignAt>& signs, const WatchPlan& plan)
      : signs_(signs), plan_(plan), tallies_(signs.size() * plan.spans()), open_(signs.size(), -1) {
    listeners_.resize(installation.parts.size());
    for (std::size_t k = 0; k < signs.size(); ++k) {
      const SignSource& source = signs[k].sign->source;
      if (source.what == SignSource::What::kReading) read_.push_back(k);
      if (source.what == SignSource::What::kDense) dense_.push_back(k);
      if (source.what == SignSource::What::kEvent || source.what == SignSource::What::kLasting)
        listen(k, source.from);
      if (source.what == SignSource::What::kLasting && source.to != source.from)
        listen(k, source.to);
    }
  }

  bool full() const override { return false; }

  void record(const TraceRecord& record) override {
    if (!record.acted || record.event.at >= plan_.until) return;
    const auto& of_part = listeners_[record.part];
    if (record.event.kind >= of_part.size()) return;
    for (const std::size_t sign : of_part[record.event.kind]) hear(sign, record.event);
  }

  void look(Session& session) { read(session, read_); }
  void look_closely(Session& session) { read(session, dense_); }

  Sighting sighting() const {
    Sighting seen;
    seen.numbers.reserve(tallies_.size());
    for (std::size_t span = 0; span < plan_.spans(); ++span) {
      const SimTime end = span == 0 ? plan_.until : static_cast<SimTime>(span) * kHalfDay;
      for (std::size_t k = 0; k < signs_.size(); ++k) {
        const Tally& tally = tallies_[span * signs_.size() + k];
        seen.numbers.push_back(static_cast<float>(tally.value(signs_[k].sign->source.take, end)));
      }
    }
    return seen;
  }

 private:
  void listen(std::size_t sign, std::uint16_t kind) {
    auto& of_part = listeners_[signs_[sign].part];
    if (of_part.size() <= kind) of_part.resize(kind + 1u);
    of_part[kind].push_back(sign);
  }

  template <class Note>
  void note(std::size_t sign, SimTime at, const Note& note) {
    note(tallies_[sign]);
    note(tallies_[WatchPlan::half_day(at) * signs_.size() + sign]);
  }

  void hear(std::size_t sign, const Event& event) {
    const SignSource& source = signs_[sign].sign->source;
    if (source.what == SignSource::What::kEvent) {
      note(sign, event.at, [&](Tally& t) { t.came(event.at); });
      return;
    }
    SimTime& since = open_[sign];
    if (event.kind == source.to && since >= 0) {
      const double lasted_s = to_seconds(event.at - since);
      note(sign, event.at, [&](Tally& t) { t.add(lasted_s); });
      since = -1;
    }
    if (event.kind == source.from) since = event.at;
  }

  void read(Session& session, const std::vector<std::size_t>& which) {
    const SimTime now = session.now();
    for (const std::size_t sign : which) {
      const double number = session.read(signs_[sign].part, signs_[sign].sign->source.reading);
      note(sign, now, [&](Tally& t) { t.add(number); });
    }
  }

  const std::vector<SignAt>& signs_;
  const WatchPlan& plan_;
  std::vector<Tally> tallies_;
  std::vector<SimTime> open_;  ///< since when what lasts goes on, -1: it does not
  std::vector<std::size_t> read_, dense_;
  std::vector<std::vector<std::vector<std::size_t>>> listeners_;  ///< by part and kind of event
};

void watch_closely(Session& session, SimTime minute, Watcher& watcher) {
  for (SimTime t = kDenseFrom; t < kMinute; t += kDenseStep) {
    if (minute + t < session.now()) continue;
    session.run_until(minute + t);
    watcher.look_closely(session);
  }
}

void watch_through(Session& session, const WatchPlan& plan, Watcher& watcher) {
  std::size_t minute = 0;
  for (SimTime look = kLookAt; look < plan.until; look += kLookEvery) {
    for (; minute < plan.minutes.size() && plan.minutes[minute] < look; ++minute)
      watch_closely(session, plan.minutes[minute], watcher);
    if (look < session.now()) continue;
    session.run_until(look);
    watcher.look(session);
  }
  session.run_until(plan.until - 1);
}

/// In which minutes each part did something that it does not do every minute.
class Rarities final : public TraceSink {
 public:
  explicit Rarities(std::size_t parts) : minutes_(parts) {}
  bool full() const override { return false; }
  void record(const TraceRecord& record) override {
    std::vector<SimTime>& of_part = minutes_[record.part];
    const SimTime minute = record.event.at / kMinute;
    if (record.acted && (of_part.empty() || of_part.back() != minute)) of_part.push_back(minute);
  }
  const std::vector<std::vector<SimTime>>& minutes() const { return minutes_; }

 private:
  std::vector<std::vector<SimTime>> minutes_;
};

constexpr SimTime kDayBegins = 7 * 60;  // min; before that hardly anybody is there
constexpr std::size_t kMostMinutes = 8;

/// The minute in which most of those act that have not been met yet; -1: none does.
SimTime fullest(const std::vector<std::vector<SimTime>>& of_parts, const std::vector<bool>& met) {
  std::map<SimTime, int> acting;
  for (std::size_t part = 0; part < of_parts.size(); ++part) {
    if (met[part]) continue;
    for (const SimTime minute : of_parts[part]) {
      if (minute >= kDayBegins) ++acting[minute];
    }
  }
  SimTime best = -1;
  int most = 0;
  for (const auto& [minute, count] : acting) {
    if (count <= most) continue;
    most = count;
    best = minute;
  }
  return best;
}

}  // namespace

std::vector<SignAt> signs_of(const Installation& installation, const SignBook& book) {
  std::vector<SignAt> signs;
  for (PartId part = 0; part < installation.parts.size(); ++part) {
    for (const Sign& sign : book.all()) {
      if (sign.kind == installation.parts[part].kind) signs.push_back({part, &sign});
    }
  }
  return signs;
}

WatchPlan plan_watch(const std::shared_ptr<const Installation>& sound, SimTime until) {
  WatchPlan plan;
  plan.until = until;
  Session session(sound);
  Rarities rarities(sound->parts.size());
  session.set_sink(&rarities);
  session.run_until(std::min<SimTime>(until, kDay) - 1);
  const auto& of_parts = rarities.minutes();
  std::vector<bool> met(of_parts.size());
  while (plan.minutes.size() < kMostMinutes) {
    const SimTime minute = fullest(of_parts, met);
    if (minute < 0) break;
    plan.minutes.push_back(minute * kMinute);
    for (std::size_t part = 0; part < of_parts.size(); ++part) {
      if (std::binary_search(of_parts[part].begin(), of_parts[part].end(), minute))
        met[part] = true;
    }
  }
  // The same once more on the last day, where what grows has grown.
  const std::size_t first_day = plan.minutes.size();
  const SimTime later = until / kDay * kDay - kDay;
  for (std::size_t k = 0; later > 0 && k < first_day; ++k)
    plan.minutes.push_back(plan.minutes[k] + later);
  std::sort(plan.minutes.begin(), plan.minutes.end());
  return plan;
}

Sighting watch(Session& session, const std::vector<SignAt>& signs, const WatchPlan& plan) {
  Watcher watcher(session.installation(), signs, plan);
  session.set_sink(&watcher);
  bool failed = false;
  try {
    watch_through(session, plan, watcher);
  } catch (const RunFailure&) {
    failed = true;  // a fault can drive parts into a loop; what was seen before still counts
  }
  session.set_sink(nullptr);
  Sighting seen = watcher.sighting();
  seen.failed = failed;
  return seen;
}

}  // namespace sixty::diagnose
