#include "gui/bench/why_panel.hpp"

#include <algorithm>

#include "sim/base/text.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kWidth = 470, kAnswerMargin = 14;
constexpr float kLit_s = 1.6F;  // each link in its turn

/// Without the instant, which stands beside it.
std::string words_of(const explain::Link& link, const Installation& scene) {
  for (const int digits : {2, 3}) {
    const std::string when = spoken_instant(scene.clock, link.at, digits) + ", ";
    if (link.text.rfind(when, 0) == 0) return link.text.substr(when.size());
  }
  return link.text;
}

}  // namespace

void WhyPanel::ask(Bench& bench, PartId part, SimTime at) {
  if (bench.look().hides_wrong) return;
  const SimTime known = std::max(bench.seen().reach, bench.picture().at);
  explain::Question question = question_about(bench.installation(), part, at, known);
  about_ = words_of_key(bench.installation().parts[part].name);
  begin();
  if (!question.any.empty()) asker_.ask(std::move(question), bench.seen().log);
}

void WhyPanel::ask(Bench& bench, const explain::Question& question) {
  about_ = words_of_key(bench.installation().parts[question.any.front().part].name);
  begin();
  asker_.ask(question, bench.seen().log);
}

void WhyPanel::begin() {
  open_ = true;
  held_ = false;
  lit_ = 0;
  asker_.forget();
}

void WhyPanel::close() {
  open_ = false;
  asker_.forget();
}

void WhyPanel::follow(float frame_s) {
  told_ = asker_.told();
  if (told_.links.empty()) lit_ = 0;
  if (held_ || told_.links.empty()) return;
  shown_s_ += frame_s;
  if (shown_s_ < kLit_s) return;
  shown_s_ = 0;
  lit_ = (lit_ + 1) % told_.links.size();
}

std::vector<PartId> WhyPanel::parts() const {
  std::vector<PartId> parts;
  if (!open_) return parts;
  for (const explain::Link& link : told_.links) parts.push_back(link.part);
  return parts;
}

void WhyPanel::show(Bench& bench, const sf::FloatRect& room, std::span<const sf::FloatRect> boxes) {
  if (!open_) return;
  const float width = std::min(kWidth, room.width - 2 * kAnswerMargin);
  corner_ = freest_corner(corner_, room, {width, size_.y}, kAnswerMargin, boxes);
  const sf::FloatRect lies = box_in(corner_, room, {width, 0}, kAnswerMargin);
  const bool upper = corner_ == Corner::kUpperLeft || corner_ == Corner::kUpperRight;
  ImGui::SetNextWindowPos({lies.left, lies.top}, ImGuiCond_Always, {0, upper ? 0.0F : 1.0F});
  bool stays = true;
  {
    const FloatingPanel panel((say("Why? {}", about_) + "###why").c_str(), stays, width,
                              room.height - 2 * kAnswerMargin);
    show_answer(bench.installation());
    show_links(bench);
    size_ = {ImGui::GetWindowSize().x, ImGui::GetWindowSize().y};
  }
  if (!stays) close();
}

/// How far both runs have come, of the time that is asked about.
void WhyPanel::show_progress(const Installation& scene) const {
  constexpr float kHigh = 8;
  ImGui::TextWrapped("%s", tr("It runs once more, and a sound one beside it. Esc ends it."));
  const SimTime come = told_.come.value_or(0);
  const double share =
      told_.goes_to.value_or(0) > 0 ? to_seconds(come) / to_seconds(*told_.goes_to) : 0;
  ImGui::ProgressBar(static_cast<float>(std::clamp(share, 0.0, 1.0)), {-1, kHigh}, "");
  ImGui::TextDisabled("%s", say("has come to {}", explain::when_text(scene, come)).c_str());
}

void WhyPanel::show_answer(const Installation& scene) const {
  if (!told_.headline.empty())
    show_text(told_.headline);
  else if (!told_.failure.empty())
    show_text(say("There is no answer: {}", told_.failure));
  else if (told_.answers)
    show_progress(scene);
  else
    ImGui::TextWrapped("%s", tr("Nothing begins here by itself that could be asked about."));
}

void WhyPanel::show_links(Bench& bench) {
  for (std::size_t k = 0; k < told_.links.size(); ++k) {
    const explain::Link& link = told_.links[k];
    ImGui::PushID(static_cast<int>(k));
    const bool lit = k == lit_;
    ImGui::AlignTextToFramePadding();
    ImGui::TextDisabled("%zu", k + 1);
    ImGui::SameLine();
    const std::string when = spoken_weekday_time(bench.installation().clock, link.at, 3);
    if (ImGui::Button(when.substr(when.size() - 9).c_str())) {
      bench.runner().set_running(false);
      bench.runner().jump(link.at);
      lit_ = k;
      held_ = true;
    }
    show_tip(tr("goes to that instant, and lights the part"));
    ImGui::SameLine();
    if (lit) ImGui::PushStyleColor(ImGuiCol_Text, ImGui::GetStyleColorVec4(ImGuiCol_CheckMark));
    show_text(words_of(link, bench.installation()));
    if (lit) ImGui::PopStyleColor();
    if (ImGui::IsItemClicked()) {
      lit_ = k;
      held_ = true;
    }
    ImGui::PopID();
  }
}

}  // namespace sixty::gui
