#include "gui/sound/ear.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace sixty::gui {
namespace {

constexpr double kMostAtTrueSpeed = 400, kMostAtHighSpeed = 40;  // a second
constexpr double kSaved_s = 0.25;          // what was not used of it may come at once later
constexpr double kSofter = -0.3;           // exponent: half as loud at ten times the speed
constexpr SimTime kListens = 2 * kSecond;  // of the scene, at the end of a long moment

/// While it lives, a sink is told what happens.
class Listening {
 public:
  Listening(Session& session, TraceSink& sink) : session_(session) { session_.set_sink(&sink); }
  ~Listening() { session_.set_sink(nullptr); }
  Listening(const Listening&) = delete;
  Listening& operator=(const Listening&) = delete;

 private:
  Session& session_;
};

std::uint16_t kind_of(const TraceRecord& record) {
  const bool passes = record.located != nullptr && record.located->what == circuit::What::kPasses;
  return passes ? static_cast<std::uint16_t>(kMarkBase + record.located->code) : record.event.kind;
}

}  // namespace

double most_heard(double speed) {
  return std::clamp(kMostAtTrueSpeed / speed, kMostAtHighSpeed, kMostAtTrueSpeed);
}

double loudness_at(double speed) { return speed <= 1 ? 1 : std::pow(speed, kSofter); }

Ear::Ear(const Installation& installation) {
  for (const PartInstance& part : installation.parts) voices_.push_back(part.part->voices());
}

bool Ear::run(Session& session, SimTime until, double speed, double lasts_s,
              const Session::StopHere& stop_here) {
  hearing_ = {lasts_s, {}};
  from_ = session.now();
  speed_ = speed;
  const SimTime unheard = until - kListens;
  if (unheard > from_ && !session.run_until(unheard, stop_here)) return false;
  bool arrived = false;
  {
    const Listening listening(session, *this);
    arrived = session.run_until(until, stop_here);
  }
  const double most = most_heard(speed);
  allowed_ = std::min(allowed_ + most * lasts_s, most * kSaved_s);
  if (lasts_s <= 0) allowed_ = most * kSaved_s;
  keep_loudest(speed);
  return arrived;
}

void Ear::record(const TraceRecord& record) {
  if (!record.acted) return;
  const std::vector<Voice>& voices = voices_[record.part];
  if (voices.empty()) return;
  const std::uint16_t kind = kind_of(record);
  const double impact = record.located == nullptr ? 0 : std::fabs(record.located->speed_m_per_s);
  for (std::size_t k = 0; k < voices.size(); ++k) {
    if (voices[k].event != kind) continue;
    const double strength = voices[k].strength(impact);
    if (strength <= 0) continue;
    const double after_s = std::min(to_seconds(record.event.at - from_) / speed_, hearing_.lasts_s);
    hearing_.heard.push_back({record.part, k, strength, std::max(after_s, 0.0)});
  }
}

/// Of each voice the loudest, and of all of them as many as are allowed.
void Ear::keep_loudest(double speed) {
  std::vector<Heard>& heard = hearing_.heard;
  const auto by_voice = [](const Heard& h) {
    return std::make_tuple(h.part, h.voice, -h.strength);
  };
  std::stable_sort(heard.begin(), heard.end(),
                   [&](const Heard& a, const Heard& b) { return by_voice(a) < by_voice(b); });
  const auto same = [](const Heard& a, const Heard& b) {
    return a.part == b.part && a.voice == b.voice;
  };
  heard.erase(std::unique(heard.begin(), heard.end(), same), heard.end());
  std::stable_sort(heard.begin(), heard.end(),
                   [](const Heard& a, const Heard& b) { return a.strength > b.strength; });
  heard.resize(std::min(heard.size(), static_cast<std::size_t>(allowed_)));
  allowed_ -= static_cast<double>(heard.size());
  for (Heard& h : heard) h.strength *= loudness_at(speed);
}

}  // namespace sixty::gui
