#include "gui/bench/part_plot.hpp"

#include <algorithm>
#include <cmath>

namespace sixty::gui {
namespace {

constexpr float kLeft = 72, kRight = 24;

constexpr std::size_t kMostLanes = 2;
constexpr SimTime kSwing = 2 * kSecond;  // what is seen of something that always moves

std::optional<std::size_t> find_lane(const std::vector<NamedDecl>& readings, Lane form) {
  for (std::size_t k = 0; k < readings.size(); ++k) {
    if (readings[k].lane == form) return k;
  }
  return std::nullopt;
}

/// The first of a part's readings that tells of the moment and is of that unit.
std::optional<std::size_t> find_unit(const std::vector<NamedDecl>& readings, const char* unit) {
  for (std::size_t k = 0; k < readings.size(); ++k) {
    if (readings[k].unit == unit && !readings[k].sums) return k;
  }
  return std::nullopt;
}

}  // namespace

std::vector<LaneOf> lanes_of_plot(const Installation& installation, PartId part) {
  const std::vector<NamedDecl>& readings = installation.parts[part].kind->declaration.readings;
  std::vector<LaneOf> lanes;
  for (std::size_t k = 0; k < readings.size() && lanes.size() < kMostLanes; ++k) {
    if (readings[k].swings) lanes.push_back({part, k, Lane::kCurve});
  }
  if (!lanes.empty()) return lanes;
  std::optional<std::size_t> curve = find_unit(readings, "A");
  if (!curve) curve = find_lane(readings, Lane::kCurve);
  if (!curve) return {};
  lanes.push_back({part, *curve, Lane::kCurve});
  if (const auto way = find_unit(readings, "m"))
    lanes.push_back({part, *way, Lane::kCurve});
  else if (const auto state = find_lane(readings, Lane::kBar))
    lanes.push_back({part, *state, Lane::kBar});
  return lanes;
}

bool PartPlot::swings() const { return reading_of(*installation_, lanes_.front()).swings; }

sf::FloatRect PartPlot::rest_of(const sf::FloatRect& canvas, View view,
                                std::optional<PartId> part) const {
  if (view != View::kPart || !part || lanes_of_plot(*installation_, *part).empty()) return canvas;
  sf::FloatRect rest = canvas;
  rest.height -= std::clamp(canvas.height * 0.36F, 130.0F, 300.0F);
  return canvas.height < 300 ? canvas : rest;
}

void PartPlot::follow(const Bench& bench, View view, const sf::FloatRect& canvas) {
  const std::optional<PartId> part = bench.look().selected;
  const sf::FloatRect rest = rest_of(canvas, view, part);
  if (rest.height == canvas.height) {
    part_.reset();
    return;
  }
  if (part_ != part) {
    lanes_ = lanes_of_plot(*installation_, *part);
    burst_.reset();
    scribe_.set_lanes(lanes_);
  }
  part_ = part;
  box_ = {canvas.left, rest.top + rest.height, canvas.width, canvas.height - rest.height};
  now_ = bench.picture().at;
  reach_ = bench.seen().reach;
  if (!swings()) {
    ask(bench, *part);
    take(bench, *part);
  }
  values_.clear();
  if (bench.picture().watched == *part) {
    for (const LaneOf& lane : lanes_) values_.push_back(bench.picture().readings[lane.reading]);
  }
  const SimTime length = swings() ? kSwing : kSecond;
  window_ = burst_ ? window_of(*burst_, now_) : Stretched{now_ - 4 * length / 5, length};
  span_.set_length(window_.length);
  span_.set(window_.from + std::llround(Span::kPresent * static_cast<double>(window_.length)),
            box_.left + kLeft, std::max(box_.width - kLeft - kRight, 1.0F));
  scribe_.set_log(bench.seen().log);
  scribe_.want(Scribe::wanted_of(span_, reach_));
}

/// While it runs, what was asked is found before the next is.
void PartPlot::ask(const Bench& bench, PartId part) {
  const Log log = bench.seen().log;
  const bool others = asked_.part != part || asked_.log != log || asked_.at < 0;
  if (!others && (asked_.at == now_ || clerk_.is_busy())) return;
  asked_ = {part, now_, log, std::nullopt};
  clerk_.give(0, [this, asked = asked_, lanes = lanes_]() mutable {
    try {
      session_.replace_log(*asked.log);
      asked.burst = burst_before(session_, lanes, asked.at);
    } catch (const RunFailure&) {
      asked.burst.reset();  // the run that it follows stands there too, and says why
    }
    const std::lock_guard lock(mutex_);
    found_ = std::move(asked);
  });
}

/// What was found for another moment will do as long as it may still be the last.
void PartPlot::take(const Bench& bench, PartId part) {
  const std::lock_guard lock(mutex_);
  const bool is_of_this = found_.at >= 0 && found_.part == part && found_.log == bench.seen().log;
  if (is_of_this && (found_.at == now_ || (found_.at < now_ && found_.burst)))
    burst_ = found_.burst;
  quiet_ = is_of_this && found_.at == now_ && !found_.burst;
  if (burst_ && burst_->begins > now_) burst_.reset();
}

void PartPlot::wait(const Bench& bench, View view, const sf::FloatRect& canvas) {
  clerk_.wait();
  follow(bench, view, canvas);
  clerk_.wait();
  follow(bench, view, canvas);
  if (part_) scribe_.wait();
}

std::vector<std::shared_ptr<const Tile>> PartPlot::written() const {
  if (!part_) return {};
  return scribe_.written(Scribe::wanted_of(span_, reach_), lanes_.size());
}

}  // namespace sixty::gui
