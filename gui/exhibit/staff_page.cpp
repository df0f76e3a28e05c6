#include "gui/exhibit/staff_page.hpp"

#include <algorithm>
#include <chrono>

#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr std::size_t kClearKey = 9, kZeroKey = 10, kEnterKey = 11,
                      kLeaveKey = 12;  // behind 1 to 9

}  // namespace

void StaffPage::hold(double held_s, std::int64_t now) {
  // A corner without a PIN would be open to every visitor.
  if (!door_.pin.empty() && held_s >= door_.hold_s) knock(now);
}

void StaffPage::knock(std::int64_t now) {
  if (is_shown()) return;
  at_ = door_.pin.empty() ? At::kOpen : At::kDoor;
  typed_.clear();
  was_wrong_ = false;
  wait_s_ = gate_.wait_left(now);
  still_s_ = 0;
}

bool StaffPage::pass(double wall_s, std::int64_t now) {
  if (!is_shown()) return false;
  still_s_ += wall_s;
  if (!trying_.valid()) {
    if (still_s_ > kShutsAfter_s) at_ = At::kShut;
    if (wait_s_ > 0) wait_s_ = gate_.wait_left(now);
    return false;
  }
  if (trying_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return false;
  const auto [tried, gate] = trying_.get();
  gate_ = gate;
  was_wrong_ = tried != PinTry::kRight;
  wait_s_ = gate_.wait_left(now);
  if (tried == PinTry::kRight) at_ = At::kOpen;
  return true;
}

StaffPage::Wish StaffPage::press(std::size_t button, std::int64_t now) {
  still_s_ = 0;
  if (at_ == At::kDoor) return press_digit(button, now);
  constexpr Wish kWishes[] = {Wish::kQuieter, Wish::kLouder, Wish::kOutOfOrder, Wish::kEnd};
  if (at_ == At::kOpen && button < std::size(kWishes)) return kWishes[button];
  at_ = At::kShut;
  return Wish::kNone;
}

StaffPage::Wish StaffPage::press_digit(std::size_t button, std::int64_t now) {
  if (trying_.valid()) return Wish::kNone;
  was_wrong_ = false;
  if (button == kLeaveKey) {
    at_ = At::kShut;
  } else if (button == kClearKey) {
    typed_.clear();
  } else if (button == kEnterKey) {
    trying_ = std::async(std::launch::async, [gate = gate_, pin = typed_, this, now]() mutable {
      const PinTry tried = gate.try_pin(door_.pin, pin, now);
      return std::pair(tried, gate);
    });
    typed_.clear();
  } else if (button <= kZeroKey && typed_.size() < kMostPin) {
    typed_ += button == kZeroKey ? '0' : static_cast<char>('1' + button);
  }
  return Wish::kNone;
}

std::vector<Button> StaffPage::buttons(bool out_of_order) const {
  std::vector<std::string> texts;
  if (at_ == At::kDoor) {
    for (char digit = '1'; digit <= '9'; ++digit) texts.emplace_back(1, digit);
    texts.insert(texts.end(), {tr("Clear"), "0", tr("Enter"), tr("Leave")});
  } else {
    texts = {tr("Quieter"), tr("Louder"), out_of_order ? tr("In order again") : tr("Out of order"),
             tr("End the display"), tr("Leave")};
  }
  std::vector<Button> buttons;
  for (const std::string& text : texts) buttons.push_back({text, nullptr, false, false, ""});
  return buttons;
}

std::string StaffPage::head() const {
  return at_ == At::kDoor ? tr("Staff: the PIN") : tr("Staff");
}

std::string StaffPage::text() const {
  if (at_ != At::kDoor) return "";
  if (trying_.valid()) return tr("One moment …");
  if (wait_s_ > 0) return say("Too many tries. The next one is in {} s.", wait_s_);
  if (was_wrong_) return tr("That was not it.");
  std::string dots;
  for (std::size_t k = 0; k < typed_.size(); ++k) dots += "● ";
  return dots;
}

StaffPlan::StaffPlan(std::size_t count, Pixel size, const ScreenSizes& sizes) {
  const float em = sizes.letter, gap = 0.5F * em;
  const float wide = std::min((size.x - 4 * gap) / 3, std::max(9 * em, sizes.target));
  const float high = std::max(2.6F * em, sizes.target);
  const std::size_t rows = (count + 2) / 3;
  const float left = (size.x - 3 * wide - 2 * gap) / 2;
  const float top = size.y - static_cast<float>(rows) * (high + gap) - gap;
  for (std::size_t k = 0; k < count; ++k) {
    const std::size_t column = k % 3, row = k / 3;
    buttons.emplace_back(left + static_cast<float>(column) * (wide + gap),
                         top + static_cast<float>(row) * (high + gap), wide, high);
  }
  words = {left, gap, 3 * wide + 2 * gap, std::max(top - 2 * gap, 1.0F)};
}

}  // namespace sixty::gui
