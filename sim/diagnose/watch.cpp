#include "sim/diagnose/watch.hpp"

#include <algorithm>

#include "sim/diagnose/tally.hpp"

namespace sixty::diagnose {
namespace {

constexpr SimTime kLookEvery = kHour;
// Three times within a minute: what lasts for less than a look is not what is found at rest.
constexpr SimTime kLookAt = 20 * kMinute + 10 * kSecond;
constexpr SimTime kLooksAfter[] = {0, 17 * kSecond, 40 * kSecond};
constexpr std::uint64_t kBusier = 3, kBusyEvents = 50'000;
constexpr SimTime kDenseStep = 500 * kMillisecond;

/// A value of a part as an inspection finds it; of a list, how long it is.
double size_of(const PartInstance& part, std::size_t number) {
  const ParamDecl& param = part.kind->declaration.params[number];
  const Value& value = part.values.at(param.name);
  if (param.kind == ParamKind::kTexts) return static_cast<double>(value.items.size());
  if (param.kind == ParamKind::kRecords) return static_cast<double>(value.records.size());
  return value.number;
}

/// Looks and listens through a run.
class Watcher final : public TraceSink {
 public:
  Watcher(const Installation& installation, const std::vector<SignAt>& signs, const WatchPlan& plan)
      : signs_(signs),
        plan_(plan),
        tallies_(signs.size() * plan.spans()),
        open_(signs.size(), -1),
        looks_(signs.size()) {
    listeners_.resize(installation.parts.size());
    for (std::size_t k = 0; k < signs.size(); ++k) {
      const SignSource& source = signs[k].sign->source;
      if (source.what == SignSource::What::kReading || source.what == SignSource::What::kValue)
        read_.push_back(k);
      if (source.what == SignSource::What::kDense) dense_.push_back(k);
      if (source.what == SignSource::What::kEvent || source.what == SignSource::What::kLasting)
        listen(k, source.from);
      if (source.what == SignSource::What::kLasting && source.to != source.from)
        listen(k, source.to);
    }
  }

  bool full() const override { return false; }

  void record(const TraceRecord& record) override {
    if (!record.acted) return;
    const auto& of_part = listeners_[record.part];
    if (record.event.kind >= of_part.size()) return;
    for (const std::size_t sign : of_part[record.event.kind]) {
      if (signs_[sign].sign->at_visit == visiting_) hear(sign, record.event);
    }
  }

  void begin_visit() {
    visiting_ = true;
    std::fill(open_.begin(), open_.end(), -1);
  }
  void look(Session& session) {
    for (const std::size_t sign : read_) looks_[sign].push_back(number(session, sign));
  }
  /// What a look found is the middle one of its numbers.
  void end_look(SimTime now) {
    for (const std::size_t sign : read_) {
      std::vector<double>& numbers = looks_[sign];
      if (numbers.empty()) continue;
      const auto middle = numbers.begin() + static_cast<std::ptrdiff_t>(numbers.size() / 2);
      std::nth_element(numbers.begin(), middle, numbers.end());
      const double around = signs_[sign].sign->source.around;
      note(sign, now, [&](Tally& t) {
        if (around > 0)
          t.add_around(*middle, around, now);
        else
          t.add(*middle, now);
      });
      numbers.clear();
    }
  }
  void look_closely(Session& session) {
    for (const std::size_t sign : dense_) {
      const double read = number(session, sign);
      note(sign, session.now(), [&](Tally& t) { t.add(read, session.now()); });
    }
  }

  Sighting sighting() const {
    Sighting seen;
    seen.numbers.reserve(tallies_.size());
    for (std::size_t span = 0; span < plan_.spans(); ++span) {
      const SimTime begin = span == 0 ? 0 : static_cast<SimTime>(span - 1) * kHalfDay;
      const SimTime end = span == 0 ? plan_.until : begin + kHalfDay;
      for (std::size_t k = 0; k < signs_.size(); ++k) {
        const SignSource& source = signs_[k].sign->source;
        const Tally& tally = tallies_[span * signs_.size() + k];
        const bool untried = source.what == SignSource::What::kOnce;
        const double number = untried ? 0 : tally.value(source.take, begin, end);
        seen.numbers.push_back(static_cast<float>(number));
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
    if (!visiting_) note(tallies_[WatchPlan::half_day(at) * signs_.size() + sign]);
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
      note(sign, event.at, [&](Tally& t) { t.add(lasted_s, event.at); });
      since = -1;
    }
    if (event.kind == source.from) since = event.at;
  }

  double number(Session& session, std::size_t sign) const {
    const SignSource& source = signs_[sign].sign->source;
    if (source.what == SignSource::What::kValue) {
      const PartInstance& part = session.build().parts[signs_[sign].part];
      return size_of(part, source.param) + (source.plus ? size_of(part, *source.plus) : 0);
    }
    return session.read(signs_[sign].part, source.reading);
  }

  const std::vector<SignAt>& signs_;
  const WatchPlan& plan_;
  std::vector<Tally> tallies_;
  bool visiting_ = false;
  std::vector<SimTime> open_;  ///< since when what lasts goes on, -1: it does not
  std::vector<std::size_t> read_, dense_;
  std::vector<std::vector<double>> looks_;  ///< numbers of the present look, by sign
  std::vector<std::vector<std::vector<std::size_t>>> listeners_;  ///< by part and kind of event
};

/// Goes on with a session while no more happens in an hour than anybody would bear.
class Patience {
 public:
  Patience(Session& session, std::uint64_t most_an_hour)
      : session_(session), most_(most_an_hour), since_(session.events()) {}

  void begin_hour() { since_ = session_.events(); }
  /// Returns false, then and ever after, where it was too much.
  bool run_until(SimTime until) {
    const auto too_much = [this] { return session_.events() - since_ > most_; };
    lost_ = lost_ || !session_.run_until(until, too_much);
    return !lost_;
  }

 private:
  Session& session_;
  std::uint64_t most_, since_;
  bool lost_ = false;
};

/// Does what hands do at a visit, and looks closely all the while. Returns whether it came to the
/// end.
bool pay_visit(Session& session, const WatchPlan& plan, Watcher& watcher, Patience& patience) {
  const auto read = [&](const Hand& hand) {
    return hand.if_still ? session.read(hand.action.part, *hand.if_still) : 0;
  };
  if (!patience.run_until(plan.until - kMinute)) return false;
  std::vector<double> before;
  for (const Hand& hand : plan.visit.hands) before.push_back(read(hand));
  if (!patience.run_until(plan.until - 1)) return false;
  for (std::size_t k = 0; k < before.size(); ++k) {
    const Hand& hand = plan.visit.hands[k];
    if (read(hand) != before[k]) continue;
    Action action = hand.action;
    action.at += plan.until;
    action.added = true;
    session.act(std::move(action));
  }
  watcher.begin_visit();
  for (SimTime t = 0; t < plan.visit.lasts; t += kDenseStep) {
    if (!patience.run_until(plan.until + t)) return false;
    watcher.look_closely(session);
  }
  return true;
}

/// Returns whether it came to the end.
bool watch_through(Session& session, const WatchPlan& plan, Watcher& watcher) {
  Patience patience(session, plan.most_events_an_hour);
  SimTime look = kLookAt;
  while (look < session.now()) look += kLookEvery;
  for (; look < plan.until; look += kLookEvery) {
    if (plan.each_hour) plan.each_hour();
    patience.begin_hour();
    for (const SimTime later : kLooksAfter) {
      if (!patience.run_until(look + later)) return false;
      watcher.look(session);
    }
    watcher.end_look(session.now());
  }
  patience.begin_hour();
  return pay_visit(session, plan, watcher, patience);
}

}  // namespace

std::vector<SignAt> signs_of(const Installation& installation, const SignBook& book) {
  std::vector<SignAt> signs;
  const auto find = [&](PartId part, const std::string& name) {
    for (std::size_t k = 0; k < signs.size(); ++k) {
      if (signs[k].part == part && signs[k].sign->name == name) return k;
    }
    return kNoSign;
  };
  for (PartId part = 0; part < installation.parts.size(); ++part) {
    for (const Sign& sign : book.all()) {
      if (sign.kind == installation.parts[part].kind) signs.push_back({part, &sign});
    }
  }
  for (SignAt& one : signs) {
    if (!one.sign->unless.empty()) one.unless = find(one.part, one.sign->unless);
  }
  return signs;
}

void plan_watch(const std::shared_ptr<const Installation>& sound, WatchPlan& plan) {
  Session session(sound);
  std::uint64_t busiest = 0;
  for (SimTime hour = kHour; hour <= plan.until; hour += kHour) {
    if (plan.each_hour) plan.each_hour();
    const std::uint64_t before = session.events();
    session.run_until(hour - 1);
    busiest = std::max(busiest, session.events() - before);
  }
  plan.most_events_an_hour = kBusier * busiest + kBusyEvents;
  plan.transients = session.transients_computed();
}

bool can_be_watched(SimTime until, Diagnostic& mistake) {
  if (until >= kShortestWatch && until <= kLongestWatch && until % kHalfDay == 0) return true;
  mistake.what = "an installation is not watched for so long";
  mistake.expected = "from 1d to 14d, in half days";
  mistake.mend = "write 3d, or leave it out";
  return false;
}

Sighting watch(Session& session, const std::vector<SignAt>& signs, const WatchPlan& plan) {
  Watcher watcher(session.installation(), signs, plan);
  session.set_sink(&watcher);
  bool failed = false;
  try {
    failed = !watch_through(session, plan, watcher);
  } catch (const RunFailure&) {
    failed = true;  // a fault can drive parts into a loop; what was seen before still counts
  }
  session.set_sink(nullptr);
  Sighting seen = watcher.sighting();
  seen.failed = failed;
  return seen;
}

}  // namespace sixty::diagnose
