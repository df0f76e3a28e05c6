// The fault hunt in the window: where its panel lies, and what it asks for.
#include <algorithm>

#include "gui/bench/window.hpp"

namespace sixty::gui {
namespace {

constexpr float kWide = 424;         // pixels of the panel at the left
constexpr float kLeastBeside = 300;  // pixels of the drawing that are of use beside the panel
constexpr SimTime kFirstMorning = 8 * kHour + 44 * kMinute;  // when a hidden fault is come to
constexpr float kSliver = 120;  // pixels of it that the panel rather takes too

}  // namespace

sf::FloatRect Window::beside_side_panel(sf::FloatRect room) const {
  const bool is_there = desk_->hunt.is_open() || lesson_.is_open();
  if (!is_there || room.width - kWide < kLeastBeside) return room;
  room.left += kWide;
  room.width -= kWide;
  return room;
}

/// Where the panel at the left lies.
sf::FloatRect Window::side_box() const {
  sf::FloatRect box = layout_.canvas(has_side());
  // A sliver of the drawing beside it would be of no use.
  if (box.width < kWide || box.width - kWide > kSliver)
    box.width = std::min(kWide, layout_.canvas(false).width);
  return box;
}

void Window::open_hunt() {
  const bool was_open = desk_->hunt.is_open() || lesson_.is_open();
  lesson_.close();
  diagnose::LibraryPlan plan;
  plan.path = scene_;
  plan.changes.set = set_;
  plan.until = options_.hunt.watch;
  plan.runs = options_.hunt.runs;
  plan.sound = options_.hunt.sound;
  desk_->hunt.open(registry_, plan, options_.hunt.cache);
  if (!was_open && sight_.is_home()) travel(sight_.view());
}

void Window::close_hunt() {
  desk_->hunt.close();
  if (sight_.is_home()) travel(sight_.view());
}

void Window::toggle_hunt() { desk_->hunt.is_open() ? close_hunt() : open_hunt(); }

/// From a part's card: what can be wrong with it is offered.
void Window::notice(PartId part) {
  open_hunt();
  desk_->hunt.point_at(part);
}

void Window::show_hunt() {
  if (!desk_->hunt.is_open()) return;
  const auto chosen = desk_->hunt.show(desk_->bench, side_box(), panels_->heading());
  obey_practice(desk_->hunt.take_practice());
  if (!desk_->hunt.is_open()) return close_hunt();
  if (chosen) select(*chosen);
}

/// Puts the faults in that are to be hunted, from the scene's start on, and lets nothing tell them.
void Window::obey_practice(const PracticePage::Wish& wish) {
  if (wish.taken) lesson_.diary().add(*wish.taken);
  if (wish.reveal) desk_->bench.hide_wrong(false);
  if (wish.hide.empty()) return;
  std::vector<Action> log = desk_->bench.installation().script;
  for (std::size_t k = 0; k < wish.hide.size(); ++k) {
    Action action;
    action.at = wish.from[k];
    action.part = wish.hide[k].part;
    action.fault = std::make_shared<const Injection>(wish.hide[k]);
    action.added = true;
    log.push_back(std::move(action));
  }
  std::stable_sort(log.begin(), log.end(),
                   [](const Action& a, const Action& b) { return a.at < b.at; });
  desk_->why.close();
  desk_->bench.hide_wrong(true);
  desk_->bench.runner().begin(std::move(log), std::max(desk_->bench.picture().at, kFirstMorning));
}

void Window::paint_marks(const Drawn& drawn, Painter& painter) const {
  const sf::FloatRect clear = drawing();
  std::vector<SuspectMark> marks = desk_->hunt.marks();
  std::erase_if(marks, [&](const SuspectMark& mark) { return !drawn.has(mark.part); });
  paint_suspects(desk_->bench.stage(), marks,
                 {{clear.left, clear.top}, {clear.left + clear.width, clear.top + clear.height}},
                 painter);
}

}  // namespace sixty::gui
