// The keys, and the page that tells of them.
#include <array>
#include <utility>

#include "gui/bench/scale.hpp"
#include "gui/bench/window.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

struct Told {
  const char* key;  ///< what is written on it is the same in all languages
  const char* does;
};

constexpr std::array kRun{
    Told{to_tr("space"), to_tr("run or pause")},
    Told{to_tr("left, right arrow"), to_tr("to the event before, to the next")},
    Told{to_tr("shift with them"), to_tr("to where something begins")},
    Told{to_tr("up, down arrow"), to_tr("faster, slower")},
    Told{"S", to_tr("stretch: slow round what happens")},
    Told{"G", to_tr("go to a time")},
    Told{to_tr("ctrl Z"), to_tr("take the last deed back")},
    Told{to_tr("enter; arrows, space"), to_tr("in a lesson: on; choose an answer")}};
constexpr std::array kLook{Told{"1, 2, 3", to_tr("building, case, part")},
                           Told{to_tr("wheel, drag"), to_tr("nearer, and about")},
                           Told{to_tr("press"), to_tr("a part's card, or its handle")},
                           Told{to_tr("other button"), to_tr("the card of a part with a handle")},
                           Told{"L", to_tr("the strip of time")},
                           Told{to_tr("wheel on it, + and -"), to_tr("more or less time")},
                           Told{to_tr("drag it"), to_tr("through time")},
                           Told{to_tr("shift drag, M"), to_tr("markers")},
                           Told{"T", to_tr("dark or light")},
                           Told{to_tr("ctrl + - 0"), to_tr("all larger, smaller, as usual")},
                           Told{"F5", to_tr("settings: language, letters, captions")}};
constexpr std::array kAsk{Told{"W", to_tr("why, of the selected part")},
                          Told{to_tr("other button on a lane"), to_tr("why, at that time")},
                          Told{"H", to_tr("a sound twin beside it")},
                          Told{"X", to_tr("hide what is wrong, for hunting")},
                          Told{"I", to_tr("instruments")},
                          Told{"F", to_tr("find the fault: what explains what was noticed")},
                          Told{"P", to_tr("keep a picture")},
                          Told{"O, N", to_tr("files, a new installation")},
                          Told{"F2, F3, F4", to_tr("the tour; for a talk; lessons")},
                          Told{"Esc", to_tr("close, and look at the whole")},
                          Told{"F1", to_tr("this page")}};

template <std::size_t N>
void column(ImFont* font, const char* heading, const std::array<Told, N>& keys) {
  ImGui::TableNextColumn();
  show_heading(font, heading);
  for (const Told& told : keys) {
    ImGui::TextUnformatted(tr(told.key));
    ImGui::Indent();
    show_second(tr(told.does));
    ImGui::Unindent();
  }
}

}  // namespace

void Window::press(const sf::Event::KeyEvent& key) {
  (void)(press_of_time(key) || press_of_look(key) || press_of_panels(key));
}

bool Window::press_of_time(const sf::Event::KeyEvent& key) {
  using K = sf::Keyboard;
  Runner& runner = desk_->bench.runner();
  switch (key.code) {
    case K::Space:
      desk_->bench.toggle_running();
      break;
    case K::Right:
      key.shift ? runner.step_to_moment(true) : runner.step(true);
      break;
    case K::Left:
      key.shift ? runner.step_to_moment(false) : runner.step(false);
      break;
    case K::Up:
      desk_->bench.change_speed(1);
      break;
    case K::Down:
      desk_->bench.change_speed(-1);
      break;
    case K::S:
      runner.set_stretch(!desk_->bench.seen().stretch);
      break;
    case K::G:
      bar_.ask_for_time();
      break;
    case K::Z:
      if (key.control) desk_->bench.undo();
      break;
    default:
      return false;
  }
  return true;
}

bool Window::press_of_look(const sf::Event::KeyEvent& key) {
  using K = sf::Keyboard;
  switch (key.code) {
    case K::Num1:
      travel(View::kBuilding);
      break;
    case K::Num2:
      travel(View::kCase);
      break;
    case K::Num3:
      if (desk_->bench.look().selected) travel(View::kPart);
      break;
    case K::M:
      desk_->strip.mark(desk_->bench.picture().at);
      break;
    case K::L:
      fold();
      break;
    case K::Add:
    case K::Equal:
      key.control ? rescale(next_scale(scale_, 1)) : desk_->strip.zoom_at(1);
      break;
    case K::Subtract:
    case K::Hyphen:
      key.control ? rescale(next_scale(scale_, -1)) : desk_->strip.zoom_at(-1);
      break;
    case K::Num0:
      if (key.control) rescale(0);
      break;
    case K::T:
      toggle_theme();
      break;
    case K::Escape:
      if (close_topmost()) break;
      end_walk();
      select(std::nullopt);
      desk_->strip.clear_marks();
      travel(sight_.view() == View::kPart ? View::kCase : sight_.view());
      break;
    default:
      return false;
  }
  return true;
}

bool Window::press_of_panels(const sf::Event::KeyEvent& key) {
  using K = sf::Keyboard;
  switch (key.code) {
    case K::W:
      if (desk_->bench.look().selected)
        desk_->why.ask(desk_->bench, *desk_->bench.look().selected, desk_->bench.picture().at);
      break;
    case K::F2:
      begin_walk_beside(Guide::Way::kOnce);
      break;
    case K::F3:
      begin_walk_beside(Guide::Way::kTalk);
      break;
    case K::F4:
      toggle_lessons();
      break;
    case K::F1:
      keys_page_ = !keys_page_;
      break;
    case K::Enter:
      if (lesson_.is_open()) lesson_.press_on();
      break;
    case K::F5:
      settings_open_ = !settings_open_;
      break;
    case K::O:
      show_files_panel(!files_);
      break;
    case K::N:
      form_ = !form_;
      break;
    case K::F:
      toggle_hunt();
      break;
    case K::I:
      desk_->meters.toggle();
      break;
    case K::X:
      desk_->bench.hide_wrong(!desk_->bench.look().hides_wrong);
      desk_->why.close();
      break;
    case K::H:
      set_twin(!desk_->bench.seen().twin);
      break;
    case K::P:
      keep_picture();
      break;
    default:
      return false;
  }
  return true;
}

bool Window::close_topmost() {
  if (desk_->bench.seen().heads_for) {
    desk_->bench.runner().halt();
    return true;
  }
  if (desk_->why.is_answering()) {
    desk_->why.close();
    return true;
  }
  for (bool* open : {&settings_open_, &keys_page_, &form_, &files_}) {
    if (std::exchange(*open, false)) return true;
  }
  if (std::exchange(greets_, false)) {
    // Its room is the drawing's again.
    if (sight_.is_home()) travel(sight_.view());
    return true;
  }
  if (desk_->hunt.is_open()) {
    close_hunt();
    return true;
  }
  if (lesson_.is_open()) {
    close_lessons();
    return true;
  }
  if (desk_->meters.is_open()) {
    desk_->meters.toggle();
    return true;
  }
  if (!desk_->why.is_open()) return false;
  desk_->why.close();
  return true;
}

/// 0: as the display asks.
void Window::rescale(float scale) {
  settings_.scale = scale;
  set_scale(chosen_scale(0, settings_.scale));
  if (keeps_) keep_settings();
}

void Window::show_keys() {
  const Pixel s = size();
  ImGui::SetNextWindowPos({s.x / 2, s.y / 2}, ImGuiCond_Always, {0.5F, 0.5F});
  const float width = std::min(s.x - 20, 940.0F);
  ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(8, 3));
  const FloatingPanel panel((std::string(tr("Keys")) + "###keys").c_str(), keys_page_, width,
                            s.y - 20);
  constexpr float kRoomForThree = 640;
  if (ImGui::BeginTable("keys", width < kRoomForThree ? 1 : 3)) {
    column(panels_->heading(), tr("Time"), kRun);
    column(panels_->heading(), tr("Looking"), kLook);
    column(panels_->heading(), tr("Asking"), kAsk);
    ImGui::EndTable();
  }
  ImGui::PopStyleVar();
}

}  // namespace sixty::gui
