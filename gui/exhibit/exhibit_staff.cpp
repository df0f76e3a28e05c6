// What an exhibit's window does for staff, and for those who look after it from afar.
#include <algorithm>
#include <cmath>

#include "gui/exhibit/exhibit_window.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr int kVolumeStep = 10;  // percent

}  // namespace

double ExhibitWindow::volume() const {
  const exhibit::Exhibit& of = *opened_.exhibit;
  const double wanted =
      keeper_.desk().book().volume.value_or(static_cast<int>(std::lround(of.volume * 100))) / 100.0;
  return std::min(wanted, of.most_volume);
}

void ExhibitWindow::follow_staff(float frame_s) {
  if (held_s_) {
    *held_s_ += frame_s;
    staff_.hold(*held_s_, now_s());
  }
  if (staff_.pass(frame_s, now_s())) keeper_.keep_gate_line(staff_.gate_line());
}

void ExhibitWindow::keep() {
  if (!tested_ && playing_.is_rehearsed()) {
    tested_ = true;
    keeper_.tested(now_s(), playing_.flaws());
  }
  keeper_.follow(now_s(), std::llround(gone_s_ * 1000), house_.shown(), attendant_);
}

void ExhibitWindow::press_staff(Pixel at) {
  const auto buttons = staff_.buttons(is_out_of_order());
  const StaffPlan plan(buttons.size(), size(), sizes_on(opened_.exhibit->screen, size()));
  std::size_t k = 0;
  while (k < plan.buttons.size() && !plan.buttons[k].contains(at)) ++k;
  if (k == plan.buttons.size()) return;
  StaffBook book = keeper_.desk().book();
  const auto percent = static_cast<int>(std::lround(volume() * 100));
  const auto most = static_cast<int>(std::lround(opened_.exhibit->most_volume * 100));
  switch (staff_.press(k, now_s())) {
    case StaffPage::Wish::kNone:
      return;
    case StaffPage::Wish::kQuieter:
      book.volume = std::max(percent - kVolumeStep, 0);
      break;
    case StaffPage::Wish::kLouder:
      book.volume = std::min(percent + kVolumeStep, most);
      break;
    case StaffPage::Wish::kOutOfOrder:
      book.out_of_order = !book.out_of_order;
      attendant_.go_home();
      break;
    case StaffPage::Wish::kEnd:
      window_.close();
      return;
  }
  keeper_.desk().change(book);
}

/// Over all else: the card that says that it is out of order, or the staff's own page.
void ExhibitWindow::paint_staff(const Poster& poster, Painter& over) const {
  over.rectangle({0, 0}, size(), theme().ground);
  if (!staff_.is_shown()) {
    poster.paint_card(tr("Out of order"), tr("This display rests. The staff know of it."), size(),
                      over);
    return;
  }
  const auto buttons = staff_.buttons(is_out_of_order());
  const StaffPlan plan(buttons.size(), size(), sizes_on(opened_.exhibit->screen, size()));
  std::string text = staff_.text();
  if (staff_.is_open()) {
    const auto percent = static_cast<int>(std::lround(volume() * 100));
    text = say("Volume: {} %", percent);
    const std::vector<std::string> troubles = keeper_.troubles();
    if (troubles.empty()) text += "\n" + std::string(tr("All is well."));
    for (const std::string& one : troubles) text += "\n" + one;
  }
  poster.paint_page(plan.words, staff_.head(), text, over);
  for (std::size_t k = 0; k < buttons.size(); ++k)
    poster.paint_hand(plan.buttons[k], buttons[k], over);
}

}  // namespace sixty::gui
