#include "gui/bench/panel_pieces.hpp"

#include <algorithm>
#include <cmath>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/values.hpp"
#include "sim/words/words.hpp"

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
  constexpr float kLeast = 72;
  const char* close = tr("Close");
  const float around = 2 * ImGui::GetStyle().FramePadding.x;
  const float wide = std::max(kLeast, ImGui::CalcTextSize(close).x + around);
  const float room = ImGui::GetContentRegionAvail().x - wide;
  ImGui::PushFont(heading);
  const bool fits = ImGui::CalcTextSize(text).x < room;
  if (!fits) ImGui::PopFont();
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted(text);
  if (fits) ImGui::PopFont();
  ImGui::SameLine(ImGui::GetWindowContentRegionMax().x - wide);
  return ImGui::Button(close, ImVec2(wide, 0));
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
  panel_heading(tr("What does not fit"));
  for (std::size_t k = 0; k < mistakes.size() && k < kMostShown; ++k) {
    const Diagnostic& m = mistakes[k];
    if (m.line > 0) {
      const std::string at = say("{}, line {}, column {}: {}", printable(m.file, 300), m.line,
                                 m.column, printable(m.what, 400));
      ImGui::TextWrapped("%s", at.c_str());
    } else {
      show_text(printable(m.what, 400));
    }
    line(tr("found"), m.found);
    line(tr("expected"), m.expected);
    line(tr("mend"), m.mend);
  }
  if (mistakes.size() > kMostShown) {
    const auto more = static_cast<std::int64_t>(mistakes.size() - kMostShown);
    ImGui::TextDisabled("%s", say_counted("and {} more", "and {} more", more).c_str());
  }
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
