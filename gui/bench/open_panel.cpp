#include "gui/bench/open_panel.hpp"

#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <filesystem>
#include <utility>

#include "gui/bench/panel_pieces.hpp"
#include "gui/keep/paths.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr std::size_t kMostCandidates = 8;

/// Tab writes the path on as far as it is certain.
int complete(ImGuiInputTextCallbackData* data) {
  const std::string begun(data->Buf, static_cast<std::size_t>(data->BufTextLen));
  const std::string whole = completed(begun, completions(begun));
  if (whole.size() > begun.size())
    data->InsertChars(data->BufTextLen, whole.c_str() + begun.size());
  return 0;
}

/// What a field leaves to a button behind it.
float room_for(const char* button) {
  constexpr float kLeast = 90;
  const ImGuiStyle& style = ImGui::GetStyle();
  const float wide = ImGui::CalcTextSize(button).x + 2 * style.FramePadding.x;
  return std::max(kLeast, wide + style.ItemSpacing.x);
}

bool is_folder(const std::string& path) { return !path.empty() && path.back() == '/'; }

}  // namespace

void OpenPanel::forget() {
  told_.clear();
  done_.clear();
}

OpenPanel::Wish OpenPanel::show(const Settings& settings, const sf::FloatRect& box,
                                ImFont* heading) {
  Wish wish;
  const Panel panel("open", box, Panel::Lies::kOver);
  if (panel_title(tr_as("button", "Open"), heading)) wish.close = true;
  show_path(wish);
  panel_heading(tr("Opened before"), heading);
  show_recent(settings, wish);
  panel_heading(tr("Keep this moment"), heading);
  show_saving(wish);
  show_told();
  return wish;
}

void OpenPanel::show_path(Wish& wish) {
  ImGui::TextWrapped("%s",
                     tr("A scene, or a moment of one that was kept. Tab completes the path."));
  const char* open = tr_as("button", "Open");
  ImGui::SetNextItemWidth(-room_for(open));
  // What was entered may be refused: then it is mended at once.
  if (ImGui::IsWindowAppearing() || std::exchange(again_, false)) ImGui::SetKeyboardFocusHere();
  const bool entered = ImGui::InputText(
      "##path", &path_,
      ImGuiInputTextFlags_CallbackCompletion | ImGuiInputTextFlags_EnterReturnsTrue, complete);
  again_ = entered;
  ImGui::SameLine();
  const bool pressed = ImGui::Button(open, ImVec2(-1, 0));
  if ((entered || pressed) && !path_.empty() && !is_folder(path_)) wish.open = with_home(path_);
  if (looked_up_ != path_) {
    looked_up_ = path_;
    candidates_ = path_.empty() ? std::vector<std::string>{} : completions(path_);
    if (candidates_.size() == 1 && candidates_[0] == path_) candidates_.clear();
  }
  for (std::size_t k = 0; k < candidates_.size() && k < kMostCandidates; ++k) {
    if (!ImGui::Selectable(candidates_[k].c_str())) continue;
    path_ = candidates_[k];
    if (!is_folder(path_)) wish.open = with_home(path_);
  }
  if (candidates_.size() > kMostCandidates)
    ImGui::TextDisabled("%s",
                        say_counted("and {} more", "and {} more",
                                    static_cast<std::int64_t>(candidates_.size() - kMostCandidates))
                            .c_str());
}

void OpenPanel::show_recent(const Settings& settings, Wish& wish) {
  if (settings.recent.empty()) ImGui::TextDisabled("%s", tr("nothing yet"));
  for (const std::string& file : settings.recent) {
    const std::filesystem::path path(file);
    ImGui::PushID(file.c_str());
    if (ImGui::Selectable(path.filename().string().c_str())) wish.open = file;
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", file.c_str());
    const float name = ImGui::CalcTextSize(path.filename().string().c_str()).x;
    ImGui::SameLine(std::max(ImGui::GetContentRegionAvail().x * 0.5F, name + 40));
    ImGui::TextDisabled("%s", path.parent_path().string().c_str());
    ImGui::PopID();
  }
}

void OpenPanel::show_saving(Wish& wish) {
  ImGui::TextWrapped(
      "%s",
      tr("Scene, seed, what was done so far and the time: the file opens exactly here again."));
  const char* keep = tr("Keep");
  ImGui::SetNextItemWidth(-room_for(keep));
  const bool entered = ImGui::InputText("##moment", &moment_, ImGuiInputTextFlags_EnterReturnsTrue);
  ImGui::SameLine();
  const bool pressed = ImGui::Button(keep, ImVec2(-1, 0));
  if ((entered || pressed) && !moment_.empty()) wish.save_moment = with_home(moment_);
}

void OpenPanel::show_told() const {
  if (!done_.empty()) {
    ImGui::Separator();
    show_text(done_);
  }
  panel_mistakes(told_, tr("What was open before is still open."));
}

}  // namespace sixty::gui
