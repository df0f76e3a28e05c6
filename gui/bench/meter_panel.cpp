#include "gui/bench/meter_panel.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/instruments/needle.hpp"
#include "sim/instruments/uncertain.hpp"

namespace sixty::gui {
namespace {

using namespace instruments;

constexpr std::size_t kMost = 4;
constexpr float kWidth = 330, kMargin = 14;
// A needle goes over so much of a circle.
constexpr float kSweep_rad = 1.6F;

std::string read_text(const MeterReading& r, const Meter::Read& read) {
  if (read.beyond) return read.value < 0 ? "beyond, backwards" : "beyond the scale";
  return uncertain(read.value, read.uncertainty, r.sheet->unit);
}

/// Its scale with ten divisions, and the pointer over it.
void draw_needle(const MeterReading& r) {
  const ImVec2 corner = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x, height = 84;
  ImDrawList& lines = *ImGui::GetWindowDrawList();
  const ImU32 ink = ImGui::GetColorU32(ImGuiCol_Text), faint = ImGui::GetColorU32(ImGuiCol_Border);
  const ImVec2 pivot(corner.x + width / 2, corner.y + height + 18);
  const float radius = 80;
  const auto at = [&](float share, float length) {
    const float angle = (share - 0.5F) * kSweep_rad;
    return ImVec2(pivot.x + length * std::sin(angle), pivot.y - length * std::cos(angle));
  };
  lines.PushClipRect(corner, {corner.x + width, corner.y + height}, true);
  for (int k = 0; k <= 10; ++k) {
    const float share = static_cast<float>(k) / 10;
    lines.AddLine(at(share, radius), at(share, k % 5 == 0 ? radius - 12 : radius - 7), faint, 1.5F);
    if (k % 5 != 0) continue;
    const std::string text = format_exact(r.range.full_scale * k / 10);
    const ImVec2 size = ImGui::CalcTextSize(text.c_str());
    const ImVec2 place = at(share, radius + 13);
    lines.AddText({place.x - size.x / 2, place.y - size.y / 2}, ink, text.c_str());
  }
  const double share = r.last.beyond ? (r.last.value < 0 ? Needle::kLeastScale : Needle::kMostScale)
                                     : r.last.value / r.range.full_scale;
  lines.AddLine(at(static_cast<float>(share), radius - 1), pivot,
                ImGui::GetColorU32(ImGuiCol_CheckMark), 2);
  lines.PopClipRect();
  ImGui::Dummy({width, height});
}

void tell(const MeterReading& r) {
  if (r.sheet->needle) draw_needle(r);
  ImGui::Text("%s", read_text(r, r.last).c_str());
  ImGui::TextDisabled("%s, %s, %s", r.sheet->name.c_str(),
                      format_quantity(r.range.full_scale, r.sheet->unit).c_str(),
                      format_quantity(r.range.resistance_ohm, "ohm").c_str());
  if (!r.sheet->needle)
    ImGui::TextDisabled("least %s\nmost %s", read_text(r, r.least).c_str(),
                        read_text(r, r.most).c_str());
}

void tell(const Ohms& r) {
  if (r.alive()) {
    ImGui::TextWrapped(
        "Caution: not dead, %s stands between the tips. What an ohmmeter shows there means "
        "nothing, and it can be harmed; cut the current off, make sure that it stays off, and "
        "measure again.",
        format_quantity(r.foreign_v, "V").c_str());
  } else if (r.beyond) {
    ImGui::TextUnformatted("no way through");
  } else {
    ImGui::Text("%s%s", uncertain(r.ohm, r.uncertainty_ohm, "ohm").c_str(),
                r.continuous ? ", it sounds" : "");
  }
}

void tell(const Beats& beats) {
  if (!beats) {
    ImGui::TextWrapped("fewer than three beats were heard");
    return;
  }
  ImGui::Text("rate %.2f s/day ± %.2f", beats->rate_s_per_day, beats->rate_uncertainty);
  ImGui::Text("tick %.4f s, tock %.4f s", beats->tick_s, beats->tock_s);
  ImGui::Text("beat error %.1f ms", beats->beat_error_s * 1e3);
  if (beats->arc_rad) ImGui::Text("semi-arc %.2f°", *beats->arc_rad * 180 / kPi);
}

void tell(const TemperatureReading& r) {
  ImGui::Text("%.1f °C ± %.1f K", r.kelvin - 273.15, r.uncertainty);
}

void tell(const instruments::Heard& heard) {
  if (heard.empty()) ImGui::TextUnformatted("nothing moved");
  const std::size_t from = heard.size() > 4 ? heard.size() - 4 : 0;
  for (std::size_t k = from; k < heard.size(); ++k)
    ImGui::Text("%s at %.3f s", words_of_key(heard[k].kind).c_str(), to_seconds(heard[k].at));
}

void tell(const Counts& counts) {
  for (const auto& [kind, count] : counts)
    ImGui::Text("%lld %s", static_cast<long long>(count), kind.c_str());
}

void tell(const Channel&) {}

}  // namespace

void MeterPanel::add(const Bench& bench, const std::string& text) {
  open_ = true;
  mistake_.clear();
  // A needle beside what is fast: at volts and amperes one of each is laid on.
  std::vector<std::string> texts{text};
  if (text.rfind("V:", 0) == 0 || text.rfind("A:", 0) == 0) texts.push_back(text + ",as=needle");
  for (const std::string& one : texts) {
    Diagnostics told;
    Mistakes mistakes(told);
    const auto order = read_order(one, bench.installation(), mistakes);
    if (!order)
      mistake_ = told.to_text();
    else
      orders_.push_back(*order);
  }
  if (orders_.size() > kMost) orders_.erase(orders_.begin(), orders_.end() - kMost);
  asked_at_ = -1;
}

void MeterPanel::put_tip(const Bench& bench, const Terminal& terminal) {
  if (tips_.size() >= 2) tips_.clear();
  if (!tips_.empty() && tips_.front() == terminal) return;
  tips_.push_back(terminal);
  if (tips_.size() < 2) return;
  const auto name = [&](const Terminal& t) {
    return bench.installation().parts[t.part].name + "." + t.name;
  };
  add(bench, *placing_ + name(tips_[0]) + ".." + name(tips_[1]));
  placing_.reset();
}

void MeterPanel::follow(const Bench& bench) {
  if (!open_ || orders_.empty()) return;
  const SimTime now = bench.picture().at;
  const bool same =
      now == asked_at_ && bench.seen().log == asked_log_ && orders_.size() == asked_orders_;
  // While it runs, what was asked is answered before the next is.
  if (same || (asked_at_ >= 0 && meters_.told()->at != asked_at_)) return;
  asked_at_ = now;
  asked_log_ = bench.seen().log;
  asked_orders_ = orders_.size();
  meters_.ask(orders_, asked_log_, now);
}

void MeterPanel::show(Bench& bench, const sf::FloatRect& room) {
  if (!open_) return;
  const float width = std::min(kWidth, room.width - 2 * kMargin);
  ImGui::SetNextWindowPos({room.left + kMargin, room.top + kMargin});
  ImGui::SetNextWindowSizeConstraints({width, 0}, {width, std::max(room.height - 28, 60.0F)});
  const FloatingPanel panel("Instruments", open_, ImGuiWindowFlags_AlwaysAutoResize);
  show_choice();
  const std::shared_ptr<const Meters::Told> told = meters_.told();
  if (orders_.empty())
    ImGui::TextDisabled("%s", "Choose at a part's card, or put two tips on terminals.");
  for (std::size_t k = 0; k < told->answers.size(); ++k) show_one(k, *told);
  if (!told->failure.empty()) ImGui::TextWrapped("%s", told->failure.c_str());
  if (!mistake_.empty()) ImGui::TextWrapped("%s", mistake_.c_str());
  if (!orders_.empty()) {
    ImGui::Separator();
    if (ImGui::Button("Take off")) {
      orders_.clear();
      tips_.clear();
      meters_.ask({}, bench.seen().log, bench.picture().at);
    }
    ImGui::SameLine();
    ImGui::TextDisabled("as laid on 3 s before");
  }
}

void MeterPanel::show_choice() {
  const auto choice = [&](const char* text, const char* order, const char* what) {
    if (ImGui::Button(text)) {
      placing_ = order;
      tips_.clear();
    }
    show_tip(what);
    ImGui::SameLine();
  };
  choice("Volts", "V:", "two tips on two terminals of the drawing");
  choice("Amperes", "A:", "the same, through the meter: it lies across them");
  choice("Ohms", "ohm:", "with the circuit dead");
  ImGui::NewLine();
  if (placing_)
    ImGui::TextWrapped("Press the %s terminal on the drawing.", tips_.empty() ? "first" : "second");
}

void MeterPanel::show_one(std::size_t k, const Meters::Told& told) {
  ImGui::Separator();
  ImGui::TextWrapped("%s", told.orders[k].text.c_str());
  std::visit([](const auto& answer) { tell(answer); }, told.answers[k]);
}

}  // namespace sixty::gui
