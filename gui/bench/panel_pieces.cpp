#include "gui/bench/panel_pieces.hpp"

#include <cmath>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/values.hpp"

namespace sixty::gui {
namespace {

constexpr std::size_t kMostShown = 12;
constexpr float kWords = 118;  // behind "expected"

void line(const char* what, const std::string& text) {
  if (text.empty()) return;
  ImGui::Indent();
  ImGui::TextDisabled("%s", what);
  ImGui::SameLine(ImGui::GetCursorStartPos().x + kWords);
  show_text(printable(text, 400));
  ImGui::Unindent();
}

}  // namespace

bool panel_title(const char* text, ImFont* heading) {
  constexpr float kWidth = 72;
  const float room = ImGui::GetContentRegionAvail().x - kWidth;
  ImGui::PushFont(heading);
  const bool fits = ImGui::CalcTextSize(text).x < room;
  if (!fits) ImGui::PopFont();
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted(text);
  if (fits) ImGui::PopFont();
  ImGui::SameLine(ImGui::GetWindowContentRegionMax().x - kWidth);
  return ImGui::Button("Close", ImVec2(kWidth, 0));
}

void panel_heading(const char* text, ImFont* heading) {
  ImGui::Spacing();
  ImGui::Separator();
  if (heading != nullptr) {
    show_heading(heading, text);
  } else {
    ImGui::TextUnformatted(text);
  }
}

void show_label(float field_from, const char* text) {
  ImGui::AlignTextToFramePadding();
  ImGui::TextDisabled("%s", text);
  ImGui::SameLine(field_from);
  ImGui::SetNextItemWidth(-1);
}

void panel_mistakes(const std::vector<Diagnostic>& mistakes, const char* behind) {
  if (mistakes.empty()) return;
  panel_heading("What does not fit");
  for (std::size_t k = 0; k < mistakes.size() && k < kMostShown; ++k) {
    const Diagnostic& m = mistakes[k];
    if (m.line > 0) {
      ImGui::TextWrapped("%s, line %d, column %d: %s", printable(m.file, 300).c_str(), m.line,
                         m.column, printable(m.what, 400).c_str());
    } else {
      show_text(printable(m.what, 400));
    }
    line("found", m.found);
    line("expected", m.expected);
    line("mend", m.mend);
  }
  if (mistakes.size() > kMostShown)
    ImGui::TextDisabled("and %d more", static_cast<int>(mistakes.size() - kMostShown));
  ImGui::TextDisabled("%s", behind);
}

std::string written_number(const ParamDecl& decl, double number) {
  constexpr double kMinute_s = 60;
  if (decl.kind == ParamKind::kCount) return format_exact(number);
  if (decl.told == Told::kDial) return told_text(number, decl.unit, decl.told);
  if (decl.unit == "s" && decl.step > 0 && std::fmod(number, kMinute_s) == 0)
    return format_exact(number / kMinute_s) + " min";
  const std::string rounded = format_quantity(number, decl.unit);
  std::string unused;
  // Rounded, it may be none of the steps any more.
  if (decl.step == 0 || value_of(decl, rounded, unused)) return rounded;
  return format_exact(number) + (decl.unit == "1" ? "" : " " + decl.unit);
}

std::optional<Value> value_of(const ParamDecl& decl, const std::string& written,
                              std::string& complaint) {
  Diagnostics found;
  Mistakes mistakes(found);
  std::optional<Value> value = check_text(decl, {"", written, {"card", 0, 0}}, mistakes);
  complaint = found.empty() ? "" : found.list().front().what;
  return value;
}

}  // namespace sixty::gui
