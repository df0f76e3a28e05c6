// Lessons in the window: where their panel lies, and what they ask for.
#include <filesystem>
#include <set>

#include "gui/bench/window.hpp"
#include "gui/tour/veil.hpp"
#include "sim/scene/beside.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {

void Window::open_lessons() {
  if (lesson_.is_open()) return;
  if (desk_->hunt.is_open()) close_hunt();
  const std::filesystem::path scenes = std::filesystem::path(scene_).parent_path();
  lesson_.open((scenes / "lessons").string(), spoken().code, settings_.learner);
  if (sight_.is_home()) travel(sight_.view());
}

void Window::close_lessons() {
  lesson_.close();
  if (sight_.is_home()) travel(sight_.view());
}

void Window::toggle_lessons() { lesson_.is_open() ? close_lessons() : open_lessons(); }

bool Window::begin_lesson(const std::string& path, std::size_t first) {
  open_lessons();
  Diagnostics mistakes;
  const lesson::Opened opened = lesson::open_lesson(path, registry_, mistakes);
  lesson_.tell(mistakes.list());
  if (opened.lesson == nullptr) return false;
  const std::string scene = scene_beside(path, opened.lesson->scene);
  std::error_code error;
  const bool is_there = set_.empty() && std::filesystem::equivalent(scene, scene_, error);
  if (!is_there && !take(scene)) {
    lesson_.tell(open_panel_.told());
    return false;
  }
  end_walk();
  greets_ = false;
  lesson_.begin(opened, desk_->bench, first);
  return true;
}

bool Window::is_for_fields(const sf::Event::KeyEvent& key) const {
  using K = sf::Keyboard;
  static const std::set<K::Key> kChoose{K::Up,  K::Down,  K::Left, K::Right,
                                        K::Tab, K::Space, K::Enter};
  if (files_ || form_) return true;
  // The settings' own keys go on doing what the panel says of them.
  if (settings_open_) return key.code != K::F5 && !key.control;
  return lesson_.chooses() && kChoose.count(key.code) != 0;
}

void Window::show_lesson() {
  if (!lesson_.is_open()) return;
  const LessonPanel::Wish wish = lesson_.show(desk_->bench, side_box(), panels_->heading());
  if (wish.closes) return close_lessons();
  if (wish.hunts) {
    open_hunt();
    desk_->hunt.practise();
    return;
  }
  if (wish.learner) settings_.learner = *wish.learner;
  if (!wish.begin.empty()) begin_lesson(wish.begin);
  if (wish.why) desk_->why.ask(desk_->bench, *wish.why);
  const lesson::Step* step = lesson_.step();
  if (wish.looks && step != nullptr)
    sight_.travel(view_of(step->scope), desk_->bench.stage(), step->part, canvas());
}

void Window::paint_lesson(Painter& painter) const {
  const lesson::Step* step = lesson_.is_open() ? lesson_.step() : nullptr;
  // Close by, what is lit fills the drawing, and its labels stand around it.
  if (step != nullptr && step->scope != Scope::kPart)
    paint_veil(desk_->bench.stage(), step->light, drawing(), painter);
}

}  // namespace sixty::gui
