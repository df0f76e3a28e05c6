#include "gui/tour/guide.hpp"

#include <algorithm>
#include <utility>

namespace sixty::gui {

Guide::Guide(std::vector<double> lasts_s, Way way, std::size_t first)
    : lasts_s_(std::move(lasts_s)), way_(way) {
  begin(std::min(first, lasts_s_.size() - 1));
}

void Guide::begin(std::size_t step) {
  step_ = step;
  gone_s_ = untouched_s_ = 0;
  stands_ = over_ = false;
  ++begun_;
}

void Guide::pass(double wall_s) {
  if (stands_ || over_) {
    untouched_s_ += wall_s;
    if (way_ == Way::kLoop && untouched_s_ >= kPatience_s) go_on();
    return;
  }
  gone_s_ += wall_s;
  if (gone_s_ < lasts_s_[step_]) return;
  gone_s_ = lasts_s_[step_];
  if (way_ == Way::kTalk) return;
  if (step_ + 1 < lasts_s_.size())
    begin(step_ + 1);
  else if (way_ == Way::kLoop)
    begin(0);
  else
    over_ = true;
}

void Guide::touch() {
  untouched_s_ = 0;
  stands_ = true;
}

void Guide::go_on() { begin(over_ ? 0 : step_); }

void Guide::next() {
  if (step_ + 1 < lasts_s_.size())
    begin(step_ + 1);
  else if (way_ == Way::kLoop)
    begin(0);
}

void Guide::back() { begin(step_ > 0 ? step_ - 1 : 0); }

double Guide::share() const { return gone_s_ / lasts_s_[step_]; }

double Guide::share_of_all() const {
  double before = 0, all = 0;
  for (std::size_t k = 0; k < lasts_s_.size(); ++k) {
    if (k < step_) before += lasts_s_[k];
    all += lasts_s_[k];
  }
  return (before + gone_s_) / all;
}

}  // namespace sixty::gui
