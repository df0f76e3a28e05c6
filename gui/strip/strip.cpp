#include "gui/strip/strip.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::gui {
namespace {

constexpr float kRight = 14, kFoot = 6, kGap = 2;
constexpr float kStill_px = 4;  // a press that moves less is a click

}  // namespace

Strip::Strip(const std::shared_ptr<const Installation>& installation,
             std::shared_ptr<const Installation> sound)
    : installation_(installation),
      sound_(std::move(sound)),
      scribe_(installation),
      base_(lanes_of_case(*installation)),
      lanes_(base_) {
  scribe_.set_lanes(lanes_);
}

void Strip::set_lanes(std::vector<LaneOf> lanes) {
  base_ = std::move(lanes);
  select(selected_);
}

void Strip::select(std::optional<PartId> part) {
  selected_ = part;
  lanes_ = part ? lanes_of(*installation_, *part) : std::vector<LaneOf>{};
  if (part) first_ = 0;
  for (const LaneOf& lane : base_) {
    if (std::find(lanes_.begin(), lanes_.end(), lane) == lanes_.end()) lanes_.push_back(lane);
  }
  scribe_.set_lanes(lanes_);
}

void Strip::follow(const Course& course, const sf::FloatRect& box) {
  course_ = course;
  box_ = box;
  const sf::FloatRect p = plot();
  span_.set(course.now, p.left, p.width);
  scribe_.set_log(course.log);
  const Scribe::Wanted wanted{std::max<SimTime>(span_.from(), 0), span_.to(), span_.column(),
                              course.reach};
  scribe_.want(wanted);
  if (!course.twin) {
    twin_.reset();
    return;
  }
  if (twin_ == nullptr) twin_ = std::make_unique<Scribe>(sound_);
  twin_->set_lanes(lanes_);
  twin_->want(wanted);
}

void Strip::wait() const {
  scribe_.wait();
  if (twin_ != nullptr) twin_->wait();
}

sf::FloatRect Strip::plot() const {
  const float left = box_.left + kNames + kValues;
  const float top = box_.top + kHead + kRuler;
  return {left, top, std::max(box_.width - kNames - kValues - kRight, 1.0F),
          std::max(box_.top + box_.height - kFoot - top, 0.0F)};
}

/// Those that fit; of those that do not, none.
std::vector<Strip::Row> Strip::rows() const {
  std::vector<Row> rows;
  const sf::FloatRect p = plot();
  float top = p.top + kGap;
  for (std::size_t k = first_; k < lanes_.size(); ++k) {
    const float height = height_of(lanes_[k].form);
    if (top + height > p.top + p.height) break;
    rows.push_back({k, top, height});
    top += height + kGap;
  }
  return rows;
}

void Strip::scroll(int lanes) {
  const int last = static_cast<int>(lanes_.size()) - 1;
  first_ =
      static_cast<std::size_t>(std::clamp(static_cast<int>(first_) + lanes, 0, std::max(last, 0)));
  // Not farther than that the last is seen.
  while (first_ > 0 && rows().back().lane + 1 == lanes_.size()) {
    --first_;
    if (rows().back().lane + 1 < lanes_.size()) {
      ++first_;
      break;
    }
  }
}

void Strip::press(Pixel at, bool marks) {
  pressed_ = at;
  pressed_now_ = course_.now;
  pressed_time_ = span_.time_at(at.x);
  marking_ = marks;
  dragged_ = false;
}

std::optional<SimTime> Strip::drag(Pixel to) {
  if (!pressed_) return std::nullopt;
  if (std::fabs(to.x - pressed_->x) > kStill_px) dragged_ = true;
  if (!dragged_) return std::nullopt;
  if (marking_) {
    marks_ = {std::min(pressed_time_, span_.time_at(to.x)),
              std::max(pressed_time_, span_.time_at(to.x))};
    return std::nullopt;
  }
  const double off = static_cast<double>(pressed_->x - to.x) * span_.per_pixel_ns();
  return std::max<SimTime>(pressed_now_ + std::llround(off), 0);
}

std::optional<SimTime> Strip::release(Pixel at) {
  const bool was_click = pressed_ && !dragged_;
  pressed_.reset();
  const sf::FloatRect p = plot();
  const bool on_ruler = at.y >= p.top - kRuler && at.y < p.top && at.x >= p.left;
  if (!was_click || !on_ruler) return std::nullopt;
  return std::max<SimTime>(span_.time_at(at.x), 0);
}

std::optional<PartId> Strip::part_at(Pixel at) const {
  for (const Row& row : rows()) {
    if (at.y >= row.top && at.y < row.top + row.height) return lanes_[row.lane].part;
  }
  return std::nullopt;
}

void Strip::mark(SimTime at) {
  if (marks_[0] && !marks_[1])
    marks_[1] = at;
  else
    marks_ = {at, std::nullopt};
}

}  // namespace sixty::gui
