#include "sim/instruments/measure.hpp"

#include <algorithm>
#include <cmath>

#include "sim/instruments/follower.hpp"
#include "sim/instruments/laid.hpp"
#include "sim/instruments/thermometer.hpp"

namespace sixty::instruments {
namespace {

using Kind = Order::Kind;

constexpr SimTime kTemperatureStep = kSecond;

/// What is there, without an instrument's inertia.
class Really final : public Indicator {
 public:
  void follow(double before, double after, double seconds) override {
    show(before);
    now_s_ += seconds;
    show(after);
  }
  void skip(double seconds) override { now_s_ += seconds; }
};

class Bench {
 public:
  Bench(Session& session, const std::vector<Order>& orders, const Window& window)
      : session_(session),
        installation_(session.installation()),
        log_(session.log()),
        orders_(orders),
        window_(window),
        range_(orders.size(), 0) {
    session_.seek(window_.from > 0 ? window_.from : -1);
    moment_ = session_.save();
    for (std::size_t k = 0; k < orders_.size(); ++k) range_[k] = first_range(orders_[k]);
    answers_.resize(orders_.size());
  }

  std::vector<Answer> measure() {
    if (any([](const Order& o) { return o.is_meter(); })) read_meters();
    if (any([](const Order& o) { return o.recorded; })) record();
    if (any([](const Order& o) { return !o.is_electrical() && !o.recorded; })) listen_and_look();
    begin_anew(nullptr);
    return std::move(answers_);
  }

 private:
  /// A run from the window's beginning with all leads laid on.
  struct Pass {
    Session& session;
    std::vector<Tapped> tapped;  ///< per order
  };

  /// Without any leads.
  void begin_anew(TraceSink* sink) {
    session_.set_sink(nullptr);
    session_.replace_log(log_);
    session_.restore(moment_);
    session_.set_sink(sink);
  }

  template <class Wanted>
  bool any(const Wanted& wanted) const {
    return std::any_of(orders_.begin(), orders_.end(), wanted);
  }

  static std::size_t first_range(const Order& o) {
    if (!o.is_meter()) return 0;
    const std::vector<MeterRange>& ranges = sheet_of(o).ranges;
    std::size_t k = ranges.size() - 1;
    while (o.full_scale > 0 && ranges[k].full_scale != o.full_scale) --k;
    return k;
  }

  double resistance(std::size_t k) const {
    const Order& o = orders_[k];
    if (o.is_meter()) return sheet_of(o).ranges[range_[k]].resistance_ohm;
    return recorder_ohm(o);
  }

  Pass begin(TraceSink* sink = nullptr) {
    begin_anew(sink);
    Pass pass{session_, {}};
    Hookups laid(orders_.size());
    for (std::size_t k = 0; k < orders_.size(); ++k) {
      if (!orders_[k].is_electrical()) continue;
      laid[k] = leads_with(orders_[k], resistance(k));
      session_.act(laying_on(orders_[k], laid[k], window_.from));
    }
    session_.run_until(window_.from + 1);
    for (const auto& leads : laid)
      pass.tapped.push_back(leads == nullptr ? Tapped{}
                                             : tapped_by(session_, *leads).value_or(Tapped{}));
    return pass;
  }

  /// Volts between the tips, or the amperes that come through.
  Follower::Quantity quantity(std::size_t k, const Pass& pass) const {
    const Tapped t = pass.tapped[k];
    return [t, &o = orders_[k]](const Session::CircuitNow& now) { return value_at(t, o, now); };
  }

  void read_meters() {
    std::vector<std::size_t> least(orders_.size(), 0);  // ranges that were too small stay left out
    while (follow_meters(least)) {
    }
  }

  /// Returns whether a meter is to be set to another range, and all to be read anew.
  bool follow_meters(std::vector<std::size_t>& least) {
    Pass pass = begin();
    Follower follower(pass.session);
    std::vector<Meter> meters;
    std::vector<std::size_t> which;
    for (std::size_t k = 0; k < orders_.size(); ++k) {
      if (!orders_[k].is_meter()) continue;
      const MeterSheet& sheet = sheet_of(orders_[k]);
      meters.emplace_back(sheet, sheet.ranges[range_[k]], installation_.seed);
      which.push_back(k);
    }
    std::vector<Really> really(meters.size());
    for (std::size_t m = 0; m < meters.size(); ++m) {
      follower.add(quantity(which[m], pass), meters[m].indicator());
      follower.add(quantity(which[m], pass), really[m]);
    }
    follower.run(window_.to);
    bool again = false;
    for (std::size_t m = 0; m < meters.size(); ++m) {
      const std::size_t k = which[m];
      again = set_range(k, meters[m], least[k]) || again;
      answers_[k] = answer_of(meters[m], really[m]);
    }
    return again;
  }

  static MeterReading answer_of(const Meter& meter, const Really& really) {
    return {&meter.sheet(),
            meter.range(),
            meter.last(),
            meter.least(),
            meter.most(),
            really.shown().least.value,
            really.shown().most.value};
  }

  /// Chooses the range in which all that was shown is read best. Returns whether the circuit feels
  /// another meter then. `least`: smallest range that may be tried.
  bool set_range(std::size_t k, Meter& meter, std::size_t& least) {
    const std::vector<MeterRange>& ranges = meter.sheet().ranges;
    const std::size_t before = range_[k];
    if (orders_[k].full_scale > 0) return false;
    if (meter.furthest().beyond) {
      least = range_[k] = std::min(before + 1, ranges.size() - 1);
    } else if (before + 1 == ranges.size()) {  // else a lower one has been chosen, and holds
      const Meter::Read read = meter.furthest();
      std::size_t suits = least;
      while (suits < before && ranges[suits].full_scale < std::fabs(read.value) - read.uncertainty)
        ++suits;
      range_[k] = suits;
    }
    if (range_[k] == before) return false;
    if (meter.sheet().needle) return true;
    if (ranges[range_[k]].resistance_ohm != ranges[before].resistance_ohm) return true;
    meter.set_range(ranges[range_[k]]);
    return false;
  }

  void record() {
    Pass pass = begin();
    Recorder recorder(window_.every);
    std::vector<std::size_t> which;
    for (std::size_t k = 0; k < orders_.size(); ++k) {
      if (!orders_[k].recorded) continue;
      recorder.add(channel(k, pass));
      which.push_back(k);
    }
    recorder.run(pass.session, window_.from, window_.to);
    for (std::size_t c = 0; c < which.size(); ++c) answers_[which[c]] = recorder.channels()[c];
  }

  Channel channel(std::size_t k, const Pass& pass) const {
    const Order& o = orders_[k];
    const std::string label = o.text.substr(o.text.find(':') + 1);
    if (o.kind != Kind::kReading) {
      const Follower::Quantity q = quantity(k, pass);
      return {label,
              o.kind == Kind::kVolts ? "V" : "A",
              [q](Session& session) { return q(session.circuit()); },
              {}};
    }
    const NamedDecl& reading = installation_.parts[o.part].kind->declaration.readings[o.reading];
    return {label,
            reading.unit.empty() ? "1" : reading.unit,
            [&o](Session& session) { return session.read(o.part, o.reading); },
            {}};
  }

  void listen_and_look() {
    Ears ears;
    std::vector<std::unique_ptr<TraceSink>> sinks(orders_.size());
    for (std::size_t k = 0; k < orders_.size(); ++k) {
      sinks[k] = sink_for(orders_[k]);
      if (sinks[k] != nullptr) ears.add(*sinks[k]);
    }
    Pass pass = begin(ears.empty() ? nullptr : &ears);
    Session& session = pass.session;
    std::vector<Thermometer> thermometers;
    for (const Order& o : orders_) thermometers.emplace_back(temperature(o, session));
    while (session.now() < window_.to) {
      const SimTime step = std::min(kTemperatureStep, window_.to - session.now());
      session.run_until(session.now() + step);
      for (std::size_t k = 0; k < orders_.size(); ++k)
        thermometers[k].follow(temperature(orders_[k], session), to_seconds(step));
    }
    for (std::size_t k = 0; k < orders_.size(); ++k)
      answer(k, session, sinks[k].get(), thermometers[k]);
  }

  std::unique_ptr<TraceSink> sink_for(const Order& o) const {
    if (o.kind == Kind::kListen) return std::make_unique<Stethoscope>(installation_, o.part);
    if (o.kind == Kind::kTally) return std::make_unique<Tally>(o.part, o.event);
    if (o.kind == Kind::kBeat) return std::make_unique<BeatTimer>(installation_, o.part);
    return nullptr;
  }

  double temperature(const Order& o, Session& session) const {
    if (o.kind != Kind::kTemperature) return 0;
    const auto place = Thermometer::place_of(installation_, o.part);
    return session.read(place->part, place->reading);
  }

  void answer(std::size_t k, Session& session, TraceSink* sink, const Thermometer& thermometer) {
    const Order& o = orders_[k];
    if (o.kind == Kind::kOhms) {
      const Installation& build = session.build();
      const auto node = [&](const Terminal& t) { return build.parts[t.part].nodes.at(t.name); };
      answers_[k] =
          read_ohms(session.circuit(), node(o.leads.a), node(o.leads.b), installation_.seed);
    } else if (o.kind == Kind::kListen) {
      answers_[k] = static_cast<const Stethoscope*>(sink)->heard();
    } else if (o.kind == Kind::kTally) {
      answers_[k] = static_cast<const Tally*>(sink)->counts();
    } else if (o.kind == Kind::kBeat) {
      Beats beats = static_cast<const BeatTimer*>(sink)->reading(o.beats_per_hour);
      if (beats) beats->arc_rad = read_arc(session, o.part);
      answers_[k] = beats;
    } else if (o.kind == Kind::kTemperature) {
      answers_[k] =
          TemperatureReading{thermometer.shown_k(installation_.seed), Thermometer::uncertainty_k()};
    }
  }

  Session& session_;
  const Installation& installation_;
  std::vector<Action> log_;
  const std::vector<Order>& orders_;
  Window window_;
  std::shared_ptr<const Session::Snapshot> moment_;
  std::vector<std::size_t> range_;
  std::vector<Answer> answers_;
};

}  // namespace

std::vector<Answer> measure(const std::shared_ptr<const Installation>& installation,
                            const std::vector<Order>& orders, const Window& window) {
  Session session(installation);
  return measure(session, orders, window);
}

std::vector<Answer> measure(Session& session, const std::vector<Order>& orders,
                            const Window& window) {
  return Bench(session, orders, window).measure();
}

void check_orders(const std::vector<Order>& orders, const Installation& installation,
                  Mistakes& mistakes) {
  const Place place{"", 0, 0, "--meter"};
  std::size_t channels = 0;
  for (const Order& o : orders) {
    const PartInstance& part = installation.parts[o.part];
    if (o.recorded && ++channels == Recorder::kMostChannels + 1)
      mistakes.add(place, {"the recorder has two channels", o.text, "two record: at most",
                           "measure in two goes"});
    if (o.kind == Kind::kTemperature && !Thermometer::place_of(installation, o.part))
      mistakes.add(place, {part.name + ": nothing tells its temperature", o.text,
                           "a part with a temperature, or that takes its surroundings",
                           "connect its surroundings, if it takes any"});
    if (o.kind == Kind::kBeat && !BeatTimer(installation, o.part).any_steps())
      mistakes.add(place, {part.name + " does not beat", o.text, "a part with an escapement",
                           "name the part that keeps time"});
  }
}

}  // namespace sixty::instruments
