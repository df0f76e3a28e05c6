// The instruments in the window: where they lie, and what they leave to the rest.
#include <utility>

#include "gui/bench/window.hpp"

namespace sixty::gui {

/// They have a column of their own, left of the drawing.
bool Window::meters_are_beside() const {
  const sf::FloatRect room = beside_side_panel(layout_.canvas(has_card()));
  return desk_->meters.rest_of(room) != room;
}

/// Something stands right of the drawing: a card, the instruments, or both.
bool Window::has_side() const {
  return has_card() || (desk_->meters.is_open() && !meters_are_beside());
}

sf::FloatRect Window::canvas() const {
  if (is_bare()) return bare_canvas();
  return desk_->meters.rest_of(beside_side_panel(layout_.canvas(has_side())));
}

/// Of the column that they share with the instruments, or all of it.
sf::FloatRect Window::card_box() const {
  sf::FloatRect box = layout_.card();
  if (desk_->meters.is_open() && !meters_are_beside())
    box.height -= desk_->meters.share_of(box).height;
  return box;
}

/// The drawing goes aside for the instruments, and has its room again without them. Their column is
/// as wide as they are, where that leaves the drawing enough.
void Window::make_room_for_meters() {
  const bool are_shown = desk_->meters.is_open();
  const bool has_width = size().x >= MeterPanel::kLeastDrawing + MeterPanel::kWidth;
  const bool share_column = are_shown && !meters_are_beside();
  layout_.widen_card(share_column && has_width ? MeterPanel::kWidth : 0);
  const std::pair now(are_shown, share_column);
  if (std::exchange(had_meters_, now) != now && sight_.is_home()) travel(sight_.view());
}

void Window::show_meters() {
  if (meters_are_beside())
    desk_->meters.show_beside(desk_->bench, beside_side_panel(layout_.canvas(has_card())));
  else if (has_card())
    desk_->meters.show_in(desk_->bench, desk_->meters.share_of(layout_.card()));
  else
    desk_->meters.show_in(desk_->bench, layout_.card());
}

}  // namespace sixty::gui
