#include "gui/strip/strip.hpp"

#include <algorithm>
#include <cmath>

#include "gui/strip/loop_lanes.hpp"

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
      recording_(installation),
      lines_(lanes_of_loops(*installation)),
      base_(lanes_of_case(*installation, lines_)),
      lanes_(base_) {
  scribe_.set_lanes(lanes_);
}

void Strip::set_lanes(std::vector<LaneOf> lanes) {
  base_ = std::move(lanes);
  by_hand_ = true;
  select(selected_);
}

void Strip::look_from_afar(bool afar) {
  if (by_hand_ || afar == afar_) return;
  afar_ = afar;
  base_ = afar ? lanes_of_building(*installation_, lines_) : lanes_of_case(*installation_, lines_);
  first_ = 0;
  select(selected_);
}

void Strip::record(const std::vector<LaneOf>& channels, std::vector<double> now) {
  if (recording_.set(channels, std::move(now))) {
    first_ = 0;
    select(selected_);
  }
}

void Strip::select(std::optional<PartId> part) {
  selected_ = part;
  lanes_ = recording_.channels();
  if (part) {
    const std::vector<LaneOf> own = lanes_of(*installation_, *part);
    lanes_.insert(lanes_.end(), own.begin(), own.end());
    first_ = 0;
  }
  for (const LaneOf& lane : base_) {
    if (std::find(lanes_.begin(), lanes_.end(), lane) == lanes_.end()) lanes_.push_back(lane);
  }
  scribe_.set_lanes(plain_lanes());
}

/// Those that need no meter.
std::vector<LaneOf> Strip::plain_lanes() const {
  const auto channels = static_cast<std::ptrdiff_t>(recording_.channels().size());
  return {lanes_.begin() + channels, lanes_.end()};
}

Scribe::Wanted Strip::wanted() const { return Scribe::wanted_of(span_, course_.reach); }

void Strip::follow(const Course& course, const sf::FloatRect& box) {
  course_ = course;
  box_ = box;
  const sf::FloatRect p = plot();
  span_.set(course.now, p.left, p.width);
  scribe_.set_log(course.log);
  scribe_.want(wanted());
  recording_.follow(course.log, wanted());
  // Until those of other lanes have come, none are told.
  if (course_.values.size() < lanes_.size()) course_.values.clear();
  recording_.tell(course_.values);
  if (!course.twin) {
    twin_.reset();
    return;
  }
  if (twin_ == nullptr) twin_ = std::make_unique<Scribe>(sound_);
  twin_->set_lanes(plain_lanes());
  twin_->want(wanted());
}

std::vector<std::shared_ptr<const Tile>> Strip::written_by(const Scribe& scribe) const {
  return scribe.written(wanted(), lanes_.size() - recording_.channels().size());
}

std::vector<std::shared_ptr<const Tile>> Strip::written() const {
  return recording_.beside(written_by(scribe_));
}

void Strip::wait() const {
  scribe_.wait();
  recording_.wait();
  if (twin_ != nullptr) twin_->wait();
}

sf::FloatRect Strip::plot() const {
  const float left = box_.left + kNames + kValues;
  const float top = box_.top + kHead + kRuler;
  return {left, top, std::max(box_.width - kNames - kValues - kRight, 1.0F),
          std::max(box_.top + box_.height - kFoot - top, 0.0F)};
}

bool Strip::is_selected(const LaneOf& lane) const {
  return lane.source == nullptr && lane.part == selected_;
}

/// A curve of the selected part, and what is recorded, is seen larger where there is room; those of
/// the lines and zones, which are many, smaller.
float Strip::height_of(const LaneOf& lane) const {
  if (lane.form != Lane::kCurve) return 18;
  const bool recorded = lane.source != nullptr && lane.source->laid != nullptr;
  if (is_selected(lane)) return std::clamp(plot().height * 0.4F, 34.0F, 120.0F);
  if (recorded) return std::clamp(plot().height * 0.22F, 34.0F, 84.0F);
  return lane.source != nullptr ? 19 : 34;
}

/// Those that fit; of those that do not, none.
std::vector<Strip::Row> Strip::rows() const {
  std::vector<Row> rows;
  const sf::FloatRect p = plot();
  float top = p.top + kGap;
  for (std::size_t k = first_; k < lanes_.size(); ++k) {
    const float height = height_of(lanes_[k]);
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
