#include "gui/bench/bar.hpp"

#include <imgui/imgui_stdlib.h>

#include <algorithm>
#include <utility>

#include "sim/base/clock_time.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kGap = 12;
constexpr float kNarrow = 760;  // pixels: in one, only what is needed most stands beside "More"

std::string speed_text(double speed) {
  if (speed >= 10000) return say("{:.0f},000 x", speed / 1000);
  if (speed >= 1) return say("{:.0f} x", speed);
  return say("1/{:.0f} x", 1 / speed);
}

/// One of the bar's, and then room for the next.
bool button(const char* text, const char* what, bool on = false) {
  if (on) ImGui::PushStyleColor(ImGuiCol_Border, ImGui::GetStyleColorVec4(ImGuiCol_CheckMark));
  if (on) ImGui::PushStyleColor(ImGuiCol_Text, ImGui::GetStyleColorVec4(ImGuiCol_CheckMark));
  const bool pressed = ImGui::Button(text);
  if (on) ImGui::PopStyleColor(2);
  show_tip(what);
  ImGui::SameLine();
  return pressed;
}

}  // namespace

Wishes Bar::show(Bench& bench, Sound* sound, const sf::FloatRect& box, bool light) {
  ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(14, 7));
  const Panel panel("bar", box);
  ImGui::PopStyleVar();
  Wishes wishes;
  narrow_ = box.width < kNarrow;
  // Beside all that must stay there, the scene's title has what room is left.
  const std::string& own = bench.installation().title;
  const bool has_room = box.width >= kNarrow + ImGui::CalcTextSize(own.c_str()).x;
  const char* title = has_room ? own.c_str() : tr_as("button", "Open");
  if (button(title, tr("another scene, or a moment that was kept (O)"))) wishes.files = true;
  show_time(bench);
  show_run(bench);
  if (!narrow_) show_speed(bench);
  show_choices(choices(bench, sound, light, wishes));
  if (std::exchange(opens_sound_, false)) ImGui::OpenPopup("sound");
  if (sound != nullptr) show_sound(*sound);
  return wishes;
}

/// What may be behind one button where there is no room, the last first.
std::vector<Bar::Choice> Bar::choices(Bench& bench, Sound* sound, bool light, Wishes& wishes) {
  const auto look = [&wishes](View view) { return [&wishes, view] { wishes.travel = view; }; };
  const auto set = [](bool& wish) { return [&wish] { wish = true; }; };
  const Runner::Seen& seen = bench.seen();
  std::vector<Choice> all;
  if (narrow_) add_what_has_no_room(bench, all);
  all.push_back({tr("Stretch"),
                 tr("time slows by itself round what happens, so that each minute takes about ten "
                    "seconds (S)"),
                 seen.stretch, [&bench, &seen] { bench.runner().set_stretch(!seen.stretch); }});
  all.push_back({tr("Building"), tr("the whole building (1)"), false, look(View::kBuilding)});
  all.push_back({tr_as("view", "Case"), tr("the master's case (2)"), false, look(View::kCase)});
  if (bench.look().selected)
    all.push_back({tr_as("view", "Part"), tr("the selected part (3)"), false, look(View::kPart)});
  all.push_back({tr("Twin"), tr("a sound installation beside this one, dashed (H)"), seen.twin,
                 set(wishes.twin)});
  all.push_back({tr("Meters"), tr("instruments to be laid on (I)"), false, set(wishes.meters)});
  all.push_back({tr("Hunt"), tr("find the fault that explains what was noticed (F)"), false,
                 set(wishes.hunt)});
  all.push_back(
      {tr("Lessons"), tr("learn it: think first, then see (F4)"), false, set(wishes.lessons)});
  all.push_back({light ? tr_as("colours", "Dark") : tr_as("colours", "Light"),
                 tr("the other colours (T)"), false, set(wishes.other_theme)});
  if (sound != nullptr) {
    const bool there = sound->has_device();
    all.push_back({!there           ? tr_as("to be heard", "No sound")
                   : sound->muted() ? tr_as("to be heard", "Muted")
                                    : tr_as("to be heard", "Sound"),
                   there ? tr("how loud it is, and mute") : tr("no loudspeaker was found"), false,
                   set(opens_sound_)});
  }
  all.push_back({tr("Settings"), tr("language, how large, colours, captions (F5)"), false,
                 set(wishes.settings)});
  all.push_back({tr("Keys"), tr("all keys (F1)"), false, set(wishes.keys_page)});
  return all;
}

void Bar::add_what_has_no_room(Bench& bench, std::vector<Choice>& all) {
  Runner& runner = bench.runner();
  all.push_back({tr("Go to"), tr("to a time (G)"), false, [this] { ask_for_time(); }});
  all.push_back({tr_as("moment", "Next"), tr("to where something begins next (shift, right arrow)"),
                 false, [&runner] { runner.step_to_moment(true); }});
  all.push_back({tr_as("moment", "Before"),
                 tr("to where something began before (shift, left arrow)"), false,
                 [&runner] { runner.step_to_moment(false); }});
  all.push_back({tr("Slower"), tr("(down arrow)"), false, [&bench] { bench.change_speed(-1); }});
  all.push_back({tr("Faster"), tr("(up arrow)"), false, [&bench] { bench.change_speed(1); }});
}

void Bar::show_choices(const std::vector<Choice>& choices) {
  const ImGuiStyle& style = ImGui::GetStyle();
  const auto width = [&](const char* text) {
    return ImGui::CalcTextSize(text).x + 2 * style.FramePadding.x + style.ItemSpacing.x;
  };
  float room = ImGui::GetContentRegionAvail().x;
  float all = 0;
  for (const Choice& choice : choices) all += width(choice.text);
  const bool folds = all > room;
  const char* more = tr("More");
  if (folds) room -= width(more);
  std::size_t shown = 0;
  for (; shown < choices.size() && room >= width(choices[shown].text); ++shown) {
    const Choice& choice = choices[shown];
    room -= width(choice.text);
    if (button(choice.text, choice.tip, choice.on)) choice.act();
  }
  if (!folds) return;
  if (button(more, tr("what there is no room for here"))) ImGui::OpenPopup("more");
  if (!ImGui::BeginPopup("more")) return;
  for (std::size_t k = shown; k < choices.size(); ++k) {
    if (ImGui::MenuItem(choices[k].text, nullptr, choices[k].on)) choices[k].act();
    show_tip(choices[k].tip);
  }
  ImGui::EndPopup();
}

void Bar::show_time(Bench& bench) {
  ImGui::AlignTextToFramePadding();
  const CivilClock& clock = bench.installation().clock;
  const SimTime now = std::max<SimTime>(bench.picture().at, 0);
  ImGui::TextUnformatted(spoken_instant(clock, now, 3).c_str());
  ImGui::SameLine();
  const bool pressed =
      !narrow_ && button(tr("Go to"), tr("to a time: Tue 10:15, 2d, 2026-01-06T10:15 (G)"));
  if (pressed || asks_) {
    asks_ = false;
    wanted_ = format_instant(clock, now, 3);  // as it is read again
    mistake_.clear();
    ImGui::OpenPopup("go to");
  }
  // It is asked for by a key too, wherever the pointer is then.
  ImGui::SetNextWindowPos({ImGui::GetItemRectMin().x, ImGui::GetItemRectMax().y});
  go_to(bench);
}

void Bar::go_to(Bench& bench) {
  if (!ImGui::BeginPopup("go to")) return;
  ImGui::TextUnformatted(tr("Go to a time"));
  if (ImGui::IsWindowAppearing() || std::exchange(again_, false)) ImGui::SetKeyboardFocusHere();
  const bool entered = ImGui::InputText(
      "##time", &wanted_, ImGuiInputTextFlags_EnterReturnsTrue | ImGuiInputTextFlags_AutoSelectAll);
  if (entered) {
    Diagnostic mistake;
    const auto at = parse_time(wanted_, bench.installation().clock, 0, mistake);
    if (at) {
      bench.runner().jump(*at);
      ImGui::CloseCurrentPopup();
    } else {
      again_ = true;
      mistake_ = say("{}: found {}; expected {}", mistake.what, mistake.found, mistake.expected);
    }
  }
  ImGui::PushTextWrapPos(ImGui::GetFontSize() * 22);
  ImGui::TextDisabled("%s", mistake_.empty()
                                ? tr("a weekday and time, a date and time, or how long since the "
                                     "start: Tue 10:15, 2d, 90s")
                                : mistake_.c_str());
  ImGui::PopTextWrapPos();
  ImGui::EndPopup();
}

void Bar::show_sound(Sound& sound) {
  if (!ImGui::BeginPopup("sound")) return;
  bool muted = sound.muted();
  if (ImGui::Checkbox(tr("muted"), &muted)) sound.mute(muted);
  float volume = sound.volume();
  ImGui::SetNextItemWidth(160);
  if (ImGui::SliderFloat(tr("volume"), &volume, 0, 1, "%.2f")) sound.set_volume(volume);
  ImGui::EndPopup();
}

void Bar::show_run(Bench& bench) {
  Runner& runner = bench.runner();
  const auto run_or_pause = [&] {
    const bool runs = bench.seen().running;
    if (button(runs ? tr("Pause") : tr_as("button", "Run"), tr("run or pause (space)"), runs))
      bench.toggle_running();
  };
  ImGui::SameLine(0, kGap);
  if (narrow_) return run_or_pause();
  if (button("◂◂", tr("to where something began before (shift, left arrow)")))
    runner.step_to_moment(false);
  if (button("◂", tr("to the event before (left arrow)"))) runner.step(false);
  run_or_pause();
  if (button("▸", tr("to the next event (right arrow)"))) runner.step(true);
  if (button("▸▸", tr("to where something begins next (shift, right arrow)")))
    runner.step_to_moment(true);
}

void Bar::show_speed(Bench& bench) {
  const Runner::Seen& seen = bench.seen();
  ImGui::SameLine(0, kGap);
  if (button("-", tr("slower (down arrow)"))) bench.change_speed(-1);
  ImGui::AlignTextToFramePadding();
  const std::string text = seen.stretch ? tr("stretched") : speed_text(seen.speed);
  // In the middle, so that the buttons stay where they are.
  const float wide = std::max(76.0F, ImGui::CalcTextSize(tr("stretched")).x);
  const float left = ImGui::GetCursorPosX();
  ImGui::SetCursorPosX(left + std::max(wide - ImGui::CalcTextSize(text.c_str()).x - 8, 0.0F) / 2);
  ImGui::TextUnformatted(text.c_str());
  ImGui::SameLine(left + wide);
  if (button("+", tr("faster (up arrow)"))) bench.change_speed(1);
  ImGui::SameLine(0, kGap);
}

}  // namespace sixty::gui
