#include "sim/lesson/fact.hpp"

#include <algorithm>

#include "sim/base/time.hpp"
#include "sim/instruments/measure.hpp"

namespace sixty::lesson {
namespace {

constexpr SimTime kClosest = kMillisecond;
constexpr SimTime kMostLooks = 20'000;

/// When each of some happenings came.
class Occasions final : public TraceSink {
 public:
  explicit Occasions(std::vector<Happening> wanted) : wanted_(std::move(wanted)) {
    times_.resize(wanted_.size());
  }
  void record(const TraceRecord& record) override {
    if (record.event.at < from) return;
    for (std::size_t k = 0; k < wanted_.size(); ++k) {
      if (record.part == wanted_[k].part && record.kind == wanted_[k].kind)
        times_[k].push_back(record.event.at);
    }
  }
  bool full() const override { return false; }
  const std::vector<SimTime>& times(const Happening& of) const {
    return times_[static_cast<std::size_t>(std::find(wanted_.begin(), wanted_.end(), of) -
                                           wanted_.begin())];
  }
  SimTime from = 0;

 private:
  std::vector<Happening> wanted_;
  std::vector<std::vector<SimTime>> times_;
};

double number_of_events(const Fact& fact, const Occasions& occasions, Span span) {
  const std::vector<SimTime>& times = occasions.times(fact.event);
  if (fact.what == Fact::What::kEvent) {
    if (fact.take == Fact::Take::kCount) return static_cast<double>(times.size());
    if (times.empty()) return kNone;
    return to_seconds((fact.take == Fact::Take::kLast ? times.back() : times.front()) - span.from);
  }
  if (times.empty()) return kNone;
  const std::vector<SimTime>& ends = occasions.times(fact.end);
  const auto end =
      std::find_if(ends.begin(), ends.end(), [&](SimTime t) { return t >= times.front(); });
  return end == ends.end() ? kNone : to_seconds(*end - times.front());
}

double number_of_meter(const Fact& fact, Session& session, Span span) {
  const instruments::Answer answer =
      instruments::measure(session, {*fact.order}, {span.from, span.to, 0}).front();
  if (const auto* warm = std::get_if<instruments::TemperatureReading>(&answer)) return warm->kelvin;
  const auto* meter = std::get_if<instruments::MeterReading>(&answer);
  if (meter == nullptr) return kNone;
  if (fact.take == Fact::Take::kMost) return meter->most.value;
  if (fact.take == Fact::Take::kLeast) return meter->least.value;
  return meter->last.value;
}

/// What is taken of one reading as looks at it come one by one.
class Taken {
 public:
  void look(double value) {
    if (count_ == 0) first_ = least_ = most_ = value;
    last_ = value;
    least_ = std::min(least_, value);
    most_ = std::max(most_, value);
    sum_ += value;
    ++count_;
  }
  double number(Fact::Take take) const {
    switch (take) {
      case Fact::Take::kFirst:
        return first_;
      case Fact::Take::kLeast:
        return least_;
      case Fact::Take::kMost:
        return most_;
      case Fact::Take::kMean:
        return sum_ / static_cast<double>(count_);
      case Fact::Take::kChange:
        return last_ - first_;
      case Fact::Take::kLast:
      case Fact::Take::kCount:
        break;
    }
    return last_;
  }

 private:
  double first_ = 0, last_ = 0, least_ = 0, most_ = 0, sum_ = 0;
  std::int64_t count_ = 0;
};

std::vector<Happening> all_happenings(const std::vector<Fact>& facts) {
  std::vector<Happening> all;
  for (const Fact& fact : facts) {
    if (fact.what == Fact::What::kEvent || fact.what == Fact::What::kLasting)
      all.push_back(fact.event);
    if (fact.what == Fact::What::kLasting) all.push_back(fact.end);
  }
  return all;
}

/// Goes through the span and looks; dense only where something but the last value is wanted.
void go_through(const std::vector<Fact>& facts, Session& session, Span span,
                std::vector<Taken>& taken) {
  const bool dense = std::any_of(facts.begin(), facts.end(), [](const Fact& fact) {
    return fact.what == Fact::What::kReading && fact.take != Fact::Take::kLast;
  });
  const SimTime every =
      dense ? std::max(kClosest, (span.to - span.from) / kMostLooks) : span.to - span.from;
  for (SimTime t = span.from;; t = std::min(t + every, span.to)) {
    session.run_until(t);
    for (std::size_t k = 0; k < facts.size(); ++k) {
      if (facts[k].what == Fact::What::kReading)
        taken[k].look(session.read(facts[k].reading.part, facts[k].reading.reading));
    }
    if (t == span.to) return;
  }
}

/// Takes a session's sink off again, also where a run fails.
class Listening {
 public:
  Listening(Session& session, TraceSink& sink) : session_(session) { session_.set_sink(&sink); }
  ~Listening() { session_.set_sink(nullptr); }
  Listening(const Listening&) = delete;
  Listening& operator=(const Listening&) = delete;

 private:
  Session& session_;
};

}  // namespace

std::vector<double> values_of(const std::vector<Fact>& facts, Session& session, Span span) {
  Occasions occasions(all_happenings(facts));
  occasions.from = span.from;
  std::vector<Taken> taken(facts.size());
  session.seek(span.from - 1);
  {
    const Listening listening(session, occasions);
    go_through(facts, session, span, taken);
  }
  std::vector<double> values;
  for (std::size_t k = 0; k < facts.size(); ++k) {
    switch (facts[k].what) {
      case Fact::What::kReading:
        values.push_back(taken[k].number(facts[k].take));
        break;
      case Fact::What::kEvent:
      case Fact::What::kLasting:
        values.push_back(number_of_events(facts[k], occasions, span));
        break;
      case Fact::What::kMeter:
        values.push_back(number_of_meter(facts[k], session, span));
        break;
    }
  }
  return values;
}

}  // namespace sixty::lesson
