#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/cli/answer_view.hpp"
#include "sim/cli/layout.hpp"
#include "sim/instruments/uncertain.hpp"

namespace sixty::cli {
namespace {

using namespace instruments;

constexpr std::size_t kIndent = 2;
constexpr std::size_t kMostHeard = 40;
// Direct voltage that may be touched when dry: IEC 61140 (from memory).
constexpr double kTouch_v = 60;

class AnswerText {
 public:
  AnswerText(const Measurement& m, bool truth) : m_(m), truth_(truth) {}

  std::string of(std::size_t k) {
    text_ = m_.orders[k].text + "\n";
    std::visit([this](const auto& answer) { tell(answer); }, m_.answers[k]);
    return text_;
  }

 private:
  void say(const std::string& sentence) { text_ += wrapped(sentence, kIndent, kIndent + 2); }

  std::string when(double since_s) const {
    return format_instant(m_.scene.clock, m_.window.from + from_seconds(since_s), 3);
  }

  std::string read(const MeterReading& r, const Meter::Read& read) const {
    const std::string unit = r.sheet->unit;
    if (!read.beyond) return uncertain(read.value, read.uncertainty, unit);
    const double end = read.value < 0 ? -r.range.full_scale : r.range.full_scale;
    if (r.sheet->needle && end < 0) return "against the stop, backwards";
    return "beyond " + format_quantity(end, unit);
  }

  void tell(const MeterReading& r) {
    say(read(r, r.last) + " at the end");
    say(fmt::format("least {} at {}", read(r, r.least), when(r.least.at_s)));
    say(fmt::format("most {} at {}", read(r, r.most), when(r.most.at_s)));
    say(fmt::format("{}, range {}, {}", r.sheet->name,
                    format_quantity(r.range.full_scale, r.sheet->unit),
                    format_quantity(r.range.resistance_ohm, "ohm")));
    if (r.sheet->needle && r.least.beyond)
      say("The needle was driven backwards: swap the tips to read that.");
    if (truth_)
      say(fmt::format("really there: from {} to {}", format_quantity(r.really_least, r.sheet->unit),
                      format_quantity(r.really_most, r.sheet->unit)));
  }

  void tell(const Ohms& r) {
    if (r.alive()) {
      say(
          fmt::format("Not dead: {} stands between the tips. What an ohmmeter shows there means "
                      "nothing, and it can be harmed; cut the current off, make sure that it "
                      "stays off, and measure again.",
                      format_quantity(r.foreign_v, "V")));
      return;
    }
    if (r.beyond) {
      say("no way: more than " + format_quantity(Ohms::kMost_ohm, "ohm"));
    } else {
      say(uncertain(r.ohm, r.uncertainty_ohm, "ohm") + (r.continuous ? ", it sounds" : ""));
    }
    say("digital ohmmeter; what lies beside the part counts too");
  }

  void tell(const Channel& channel) {
    text_ += channel_picture(channel, m_.window.from, m_.window.to);
    say(fmt::format("recorder, {} samples at {}, each {}", channel.samples.size(),
                    format_duration(m_.window.every),
                    "to " + uncertainty_text(channel.uncertainty(), channel.unit)));
  }

  void tell(const Heard& heard) {
    if (heard.empty()) say("nothing moved");
    TextTable table({{"at"}, {"what"}, {"speed", true}});
    for (std::size_t k = 0; k < std::min(heard.size(), kMostHeard); ++k) {
      const Stethoscope::Heard& h = heard[k];
      table.add({format_instant(m_.scene.clock, h.at, 4), h.kind,
                 h.speed_m_per_s > 0 ? format_quantity(h.speed_m_per_s, "m/s") : ""});
    }
    if (heard.size() > kMostHeard)
      table.remark(fmt::format("... and {} more", heard.size() - kMostHeard));
    if (!heard.empty()) text_ += table.text(kIndent);
  }

  void tell(const TemperatureReading& r) {
    say(fmt::format("{:.1f} degC ± {:.1f} K, contact thermometer", r.kelvin - 273.15,
                    r.uncertainty));
  }

  void tell(const Beats& beats) {
    if (!beats) {
      say("fewer than three beats were heard: listen for longer, or the clock stands");
      return;
    }
    const BeatReading& b = *beats;
    say(fmt::format("rate {} over {}, against {} beats an hour",
                    uncertain(b.rate_s_per_day, b.rate_uncertainty, "s/day"),
                    counted(b.beats, "beat"), format_exact(b.beats_per_hour)));
    say(fmt::format(
        "tick {}, tock {}, beat error {}", uncertain(b.tick_s, b.interval_uncertainty_s, "s"),
        uncertain(b.tock_s, b.interval_uncertainty_s, "s"), format_quantity(b.beat_error_s, "s")));
    if (b.arc_rad)
      say(fmt::format("semi-arc {:.2f} deg ± {:.2f} deg, read off the scale",
                      *b.arc_rad / BeatTimer::kArcStep_rad * 0.05, 0.05));
  }

  void tell(const Counts& counts) {
    if (counts.empty()) say("none");
    for (const auto& [kind, count] : counts) say(fmt::format("{} {}", grouped(count), kind));
  }

  const Measurement& m_;
  bool truth_;
  std::string text_;
};

std::string caution(const std::vector<Answer>& answers) {
  double largest = 0;
  for (const Answer& answer : answers) {
    const auto* meter = std::get_if<MeterReading>(&answer);
    if (meter != nullptr && meter->sheet->unit == "V")
      largest = std::max({largest, -meter->really_least, meter->really_most});
  }
  if (largest <= kTouch_v) return "";
  return "\n" +
         wrapped(fmt::format("Caution: up to {} stood between a meter's tips for a moment. Lay "
                             "them on while the current is off, use insulated ones, and keep to "
                             "local rules.",
                             format_quantity(largest, "V")),
                 0, 0);
}

}  // namespace

std::string answers_text(const Measurement& m, bool truth) {
  std::string text = fmt::format("Measured from {} to {}\n",
                                 format_instant(m.scene.clock, m.window.from, kExactFraction),
                                 format_instant(m.scene.clock, m.window.to, kExactFraction));
  AnswerText answer(m, truth);
  for (std::size_t k = 0; k < m.orders.size(); ++k) text += "\n" + answer.of(k);
  return text + caution(m.answers);
}

}  // namespace sixty::cli
