#include "gui/bench/meter_answers.hpp"

#include <imgui/imgui.h>

#include <algorithm>
#include <cmath>

#include "gui/bench/panel.hpp"
#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/instruments/needle.hpp"
#include "sim/instruments/uncertain.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using namespace instruments;

// A needle goes over so much of a circle.
constexpr float kSweep_rad = 1.6F;

/// Its scale with ten divisions and the unit on it, and the pointer over it.
void draw_needle(const MeterReading& r) {
  const ImVec2 corner = ImGui::GetCursorScreenPos();
  const float width = ImGui::GetContentRegionAvail().x, height = 84;
  ImDrawList& lines = *ImGui::GetWindowDrawList();
  const ImU32 ink = ImGui::GetColorU32(ImGuiCol_Text), faint = ImGui::GetColorU32(ImGuiCol_Border);
  const ImVec2 pivot(corner.x + width / 2, corner.y + height + 18);
  const float radius = std::min(80.0F, width / 2 - 8);
  const Scale scale = scale_of(r.range.full_scale, r.sheet->unit);
  const auto write = [&](const std::string& text, ImVec2 middle) {
    const ImVec2 size = ImGui::CalcTextSize(text.c_str());
    lines.AddText({middle.x - size.x / 2, middle.y - size.y / 2}, ink, text.c_str());
  };
  const auto at = [&](float share, float length) {
    const float angle = (share - 0.5F) * kSweep_rad;
    return ImVec2(pivot.x + length * std::sin(angle), pivot.y - length * std::cos(angle));
  };
  lines.PushClipRect(corner, {corner.x + width, corner.y + height}, true);
  for (int k = 0; k <= 10; ++k) {
    const float share = static_cast<float>(k) / 10;
    lines.AddLine(at(share, radius), at(share, k % 5 == 0 ? radius - 12 : radius - 7), faint, 1.5F);
    if (k % 5 != 0) continue;
    write(scale.marks[static_cast<std::size_t>(k) / 5], at(share, radius + 13));
  }
  write(scale.unit, at(0.84F, 0.55F * radius));
  const double share = r.last.beyond ? (r.last.value < 0 ? Needle::kLeastScale : Needle::kMostScale)
                                     : r.last.value / r.range.full_scale;
  lines.AddLine(at(static_cast<float>(share), radius - 1), pivot,
                ImGui::GetColorU32(ImGuiCol_CheckMark), 2);
  lines.PopClipRect();
  ImGui::Dummy({width, height});
}

void write(const std::string& text) { ImGui::TextUnformatted(text.c_str()); }

void tell(const MeterReading& r) {
  if (r.sheet->needle) draw_needle(r);
  show_text(read_text(r, r.last));
  show_second(tr(r.sheet->name) + ", " + spoken_quantity(r.range.full_scale, r.sheet->unit) + ", " +
              spoken_quantity(r.range.resistance_ohm, "ohm"));
  if (r.sheet->needle) return;
  show_second(say("least {}", read_text(r, r.least)));
  show_second(say("most {}", read_text(r, r.most)));
}

void tell(const Ohms& r) {
  if (r.alive()) {
    show_text(
        say("Caution: not dead, {} stands between the tips. What an ohmmeter shows there means "
            "nothing, and it can be harmed; cut the current off, make sure that it stays off, and "
            "measure again.",
            spoken_quantity(r.foreign_v, "V")));
  } else if (r.beyond) {
    ImGui::TextUnformatted(tr("no way through"));
  } else {
    const std::string ohms = uncertain(r.ohm, r.uncertainty_ohm, "ohm");
    write(r.continuous ? say("{}, it sounds", ohms) : ohms);
  }
}

void tell(const Beats& beats) {
  if (!beats) {
    ImGui::TextWrapped("%s", tr("fewer than three beats were heard"));
    return;
  }
  write(say("rate {:.2f} s/day ± {:.2f}", beats->rate_s_per_day, beats->rate_uncertainty));
  write(say("tick {:.4f} s, tock {:.4f} s", beats->tick_s, beats->tock_s));
  write(say("beat error {:.1f} ms", beats->beat_error_s * 1e3));
  if (beats->arc_rad) write(say("semi-arc {:.2f}°", *beats->arc_rad * 180 / kPi));
}

void tell(const TemperatureReading& r) {
  write(say("{:.1f} °C ± {:.1f} K", r.kelvin - 273.15, r.uncertainty));
}

void tell(const instruments::Heard& heard) {
  if (heard.empty()) ImGui::TextUnformatted(tr("nothing moved"));
  const std::size_t from = heard.size() > 4 ? heard.size() - 4 : 0;
  for (std::size_t k = from; k < heard.size(); ++k)
    write(say("{} at {:.3f} s", tr(words_of_key(heard[k].kind)), to_seconds(heard[k].at)));
}

void tell(const Counts& counts) {
  for (const auto& [kind, count] : counts) write(std::to_string(count) + " " + spoken_key(kind));
}

void tell(const Channel&) {}

}  // namespace

Scale scale_of(double full_scale, std::string_view unit) {
  const std::string full = format_quantity(full_scale, unit);
  const std::string shown = full.substr(full.find(' ') + 1);
  // In the unit that the range is told in: 25 mA, not 0.025.
  std::string unused;
  const double one = parse_quantity("1 " + shown, unit, unused).value_or(1);
  const auto mark = [&](double share) { return spoken_quantity(share * full_scale / one, "1"); };
  return {{mark(0), mark(0.5), mark(1)}, shown};
}

std::string read_text(const MeterReading& r, const Meter::Read& read) {
  if (read.beyond) return read.value < 0 ? tr("beyond, backwards") : tr("beyond the scale");
  return uncertain(read.value, read.uncertainty, r.sheet->unit);
}

void show_answer(const Answer& answer) {
  std::visit([](const auto& told) { tell(told); }, answer);
}

void show_side_by_side(const MeterReading& needle, const MeterReading& fast) {
  // The panel takes its height from what is in it, so its columns need a width.
  const float edges = 2 * ImGui::GetStyle().WindowPadding.x + ImGui::GetStyle().ScrollbarSize;
  const float half = (ImGui::GetWindowWidth() - edges) / 2 - 2 * ImGui::GetStyle().CellPadding.x;
  if (!ImGui::BeginTable("meters", 2, ImGuiTableFlags_SizingFixedFit)) return;
  for (const char* column : {"needle", "fast"})
    ImGui::TableSetupColumn(column, ImGuiTableColumnFlags_WidthFixed, half);
  ImGui::TableNextColumn();
  tell(needle);
  ImGui::TableNextColumn();
  tell(fast);
  ImGui::EndTable();
}

}  // namespace sixty::gui
