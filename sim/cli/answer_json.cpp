#include <nlohmann/json.hpp>

#include "sim/cli/answer_view.hpp"

namespace sixty::cli {
namespace {

using namespace instruments;
using Json = nlohmann::ordered_json;

Json read_json(const Meter::Read& read, SimTime from) {
  return Json{{"value", read.value},
              {"uncertainty", read.uncertainty},
              {"beyond_scale", read.beyond},
              {"at_s", to_seconds(from + from_seconds(read.at_s))}};
}

struct AnswerJson {
  const Measurement& m;

  Json operator()(const MeterReading& r) const {
    return Json{{"instrument", r.sheet->name},
                {"unit", r.sheet->unit},
                {"range", r.range.full_scale},
                {"resistance_ohm", r.range.resistance_ohm},
                {"last", read_json(r.last, m.window.from)},
                {"least", read_json(r.least, m.window.from)},
                {"most", read_json(r.most, m.window.from)},
                {"really_least", r.really_least},
                {"really_most", r.really_most}};
  }
  Json operator()(const Ohms& r) const {
    const bool none = r.alive() || r.beyond;
    return Json{{"instrument", "ohmmeter"},
                {"unit", "ohm"},
                {"alive", r.alive()},
                {"foreign_v", r.foreign_v},
                {"beyond_scale", r.beyond},
                {"continuous", r.continuous},
                {"value", none ? Json(nullptr) : Json(r.ohm)},
                {"uncertainty", none ? Json(nullptr) : Json(r.uncertainty_ohm)}};
  }
  Json operator()(const Channel& c) const {
    return Json{{"instrument", "recorder"},
                {"unit", c.unit},
                {"from_s", to_seconds(m.window.from)},
                {"every_s", to_seconds(m.window.every)},
                {"uncertainty", c.uncertainty()},
                {"samples", c.samples}};
  }
  Json operator()(const Heard& heard) const {
    Json list = Json::array();
    for (const Stethoscope::Heard& h : heard)
      list.push_back(
          Json{{"at_s", to_seconds(h.at)}, {"what", h.kind}, {"speed_m_per_s", h.speed_m_per_s}});
    return Json{{"instrument", "stethoscope"}, {"heard", list}};
  }
  Json operator()(const TemperatureReading& r) const {
    return Json{{"instrument", "thermometer"},
                {"unit", "K"},
                {"value", r.kelvin},
                {"uncertainty", r.uncertainty}};
  }
  Json operator()(const Beats& beats) const {
    Json json{{"instrument", "beat timer"}, {"beats", beats ? beats->beats : 0}};
    if (!beats) return json;
    json["beats_per_hour"] = beats->beats_per_hour;
    json["rate_s_per_day"] = beats->rate_s_per_day;
    json["rate_uncertainty_s_per_day"] = beats->rate_uncertainty;
    json["tick_s"] = beats->tick_s;
    json["tock_s"] = beats->tock_s;
    json["beat_error_s"] = beats->beat_error_s;
    json["interval_uncertainty_s"] = beats->interval_uncertainty_s;
    json["arc_rad"] = beats->arc_rad ? Json(*beats->arc_rad) : Json(nullptr);
    return json;
  }
  Json operator()(const Counts& counts) const {
    Json each = Json::object();
    for (const auto& [kind, count] : counts) each[kind] = count;
    return Json{{"instrument", "tally"}, {"counts", each}};
  }
};

}  // namespace

std::string answers_json(const Measurement& m) {
  Json whole;
  whole["format"] = "sixtybeats-measure/1";
  whole["scene"] = m.scene.name;
  whole["from_s"] = to_seconds(m.window.from);
  whole["to_s"] = to_seconds(m.window.to);
  whole["readings"] = Json::array();
  for (std::size_t k = 0; k < m.orders.size(); ++k) {
    Json reading{{"meter", m.orders[k].text}};
    reading.update(std::visit(AnswerJson{m}, m.answers[k]));
    whole["readings"].push_back(std::move(reading));
  }
  return whole.dump(2) + "\n";
}

}  // namespace sixty::cli
