#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "gui/bench/part_plot.hpp"
#include "gui/paint/text_width.hpp"
#include "sim/base/math.hpp"
#include "sim/base/text.hpp"
#include "sim/explain/link.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kPlotBody = 13, kLine_px = 2;
constexpr float kHead = 26, kFoot = 24, kRow = 16, kBetween = 20;
constexpr int kRows = 2;  // of words over the plot
constexpr float kShareOfFirst = 0.6F, kLeastOfTwo = 90;
constexpr double kTickGap_px = 84;

constexpr double kLeastSwing = 1;  // in the unit that is shown: what rests has an axis too

/// In which a reading's values are shown, in SI: angles in degrees.
double shown_unit(const NamedDecl& reading) { return reading.unit == "rad" ? kDegree : 1; }

double axis_above(double value) { return round_above(value, {1, 1.5, 2, 2.5, 3, 4, 5, 6, 8}); }

}  // namespace

/// Paints one plot once.
class PartPlot::Brush {
 public:
  Brush(const PartPlot& plot, Painter& painter)
      : plot_(plot), painter_(painter), theme_(painter.theme()), tiles_(plot.written()) {
    left_ = plot.span_.pixel(plot.window_.from);
    right_ = plot.span_.pixel(plot.window_.from + plot.window_.length);
    top_ = plot.box_.top + kHead + kRows * kRow;
    foot_ = plot.box_.top + plot.box_.height - kFoot;
  }

  void paint() {
    const sf::FloatRect& box = plot_.box_;
    painter_.rectangle({box.left, box.top}, {box.width, box.height}, theme_.panel);
    painter_.rectangle({box.left, box.top}, {box.width, 1}, theme_.rule);
    const float known = x(std::min(plot_.reach_, plot_.window_.from + plot_.window_.length));
    painter_.rectangle({known, top_}, {right_ - known, foot_ - top_},
                       mix(theme_.panel, theme_.ground, 0.75F));
    paint_head();
    paint_ticks();
    paint_events();
    const bool two = plot_.lanes_.size() > 1 && foot_ - top_ > kLeastOfTwo;
    const float high = foot_ - top_ - (two ? kBetween : 0);
    const float first = two ? kShareOfFirst * high : high;
    paint_lane(0, top_, first);
    if (two) paint_lane(1, top_ + first + kBetween, high - first);
    paint_now();
  }

 private:
  struct Frame {
    float top = 0, height = 0;
    double low = 0, high = 1;
    /// Or what is nearest to it.
    double zero() const { return std::clamp(0.0, low, high); }
    float y(double value) const {
      return top + height * static_cast<float>((high - value) / (high - low));
    }
  };

  float x(SimTime t) const { return std::clamp(plot_.span_.pixel(t), left_, right_); }
  bool is_seen(SimTime t) const {
    return t >= plot_.window_.from && t <= plot_.window_.from + plot_.window_.length;
  }
  const NamedDecl& reading(std::size_t lane) const {
    return reading_of(*plot_.installation_, plot_.lanes_[lane]);
  }
  void words(const std::string& text, Pixel at, sf::Color colour, bool bold = false,
             Lettering::Align align = Lettering::Align::kLeft) {
    painter_.letters({text, at, kPlotBody, colour, align, bold});
  }

  /// Which stretch of time it is, and how long.
  void paint_head() {
    const float y = plot_.box_.top + kHead / 2 + 1;
    const CivilClock& clock = plot_.installation_->clock;
    const std::string beginning =
        plot_.burst_ ? say("0 is {}", spoken_weekday_time(clock, plot_.burst_->begins, 6)) : "";
    const float after = text_width(beginning, kPlotBody, true) + 16;
    const std::string length = length_text(plot_.window_.length);
    std::string across = say("{} across", length);
    if (plot_.burst_ && !is_seen(plot_.now_)) {
      const std::string both =
          say("{} across, now is {} after 0", length, length_text(plot_.now_ - zero()));
      if (after + text_width(both, kPlotBody) < right_ - left_) across = both;
    }
    // The marks below tell too how long it is: where there is no room for both, when it was stands.
    if (plot_.burst_ && after + text_width(across, kPlotBody) > right_ - left_) across.clear();
    words(across, {right_, y}, theme_.second_text, false, Lettering::Align::kRight);
    const float room = right_ - left_ - text_width(across, kPlotBody) - 24;
    if (!plot_.burst_) {
      if (plot_.quiet_)
        words(tr("nothing has happened here in the last hour"), {left_, y}, theme_.second_text);
      else if (plot_.swings())
        words(say("now is {}", spoken_weekday_time(clock, plot_.now_, 3)), {left_, y}, theme_.text,
              true);
      return;
    }
    const Burst& burst = *plot_.burst_;
    const PartInstance& by = plot_.installation_->parts[burst.by];
    const std::string name = words_of_key(by.name);
    const std::string what = by.kind->declaration.meaning_of(burst.kind);
    words(beginning, {left_, y}, theme_.text, true);
    for (const std::string& text :
         {say("{}: {}", name, what), say("{}: {}", name, tr(words_of_key(burst.kind))), name}) {
      if (after + text_width(text, kPlotBody) > room) continue;
      words(text, {left_ + after, y}, theme_.second_text);
      return;
    }
  }

  SimTime zero() const { return plot_.burst_ ? plot_.burst_->begins : plot_.now_; }

  void paint_ticks() {
    const auto per_px = plot_.span_.per_pixel_ns();
    const auto step = static_cast<SimTime>(std::llround(round_above(kTickGap_px * per_px)));
    const SimTime from = plot_.window_.from, to = from + plot_.window_.length;
    const SimTime first = (from - zero()) / step - 1;
    for (SimTime k = first; zero() + k * step <= to; ++k) {
      const SimTime at = zero() + k * step;
      if (at < from) continue;
      painter_.rectangle({x(at), top_}, {1, foot_ - top_ + 4}, with_alpha(theme_.rule, 0.7F));
      const bool is_free = !is_seen(plot_.now_) || std::fabs(x(at) - x(plot_.now_)) > 44;
      const std::string text =
          k == 0 ? "0" : (k < 0 ? "-" : "") + length_text(std::llabs(k) * step);
      const float half = text_width(text, kPlotBody) / 2;
      if (is_free && x(at) - half > left_ - 2 && x(at) + half < right_ + 20)
        words(text, {x(at), foot_ + 13}, theme_.second_text, false, Lettering::Align::kMiddle);
    }
  }

  /// What the part did, in words over the plot. Where they are close to each other, the earlier
  /// stand higher: so no line goes through words.
  void paint_events() {
    if (!plot_.burst_) return;
    const std::vector<Burst::Event>& events = plot_.burst_->events;
    std::array<float, kRows> begins{};  // of the words that stand in a row, from the foot up
    begins.fill(right_ + 1);
    float next = right_ + 1;  // line of the event behind it
    int row = -1;
    for (auto event = events.rbegin(); event != events.rend(); ++event) {
      if (!is_seen(event->at)) continue;
      const std::string text = tr(words_of_key(event->kind));
      const float at = x(event->at), ends = at + 10 + text_width(text, kPlotBody);
      row = ends < next ? 0 : row + 1;
      next = at;
      const bool fits = row < kRows && ends < begins[static_cast<std::size_t>(row)];
      const float y = top_ - kRow * (static_cast<float>(fits ? row : 0) + 0.5F);
      painter_.dashes(std::array{Pixel(at, fits ? y - 6 : top_), Pixel(at, foot_)}, 1,
                      theme_.second_text, std::array{3.0F, 3.0F});
      if (!fits) continue;
      begins[static_cast<std::size_t>(row)] = at;
      words(text, {at + 5, y}, theme_.text);
    }
  }

  /// From zero on, up to what is known within the window; of what goes round, about that alone.
  Frame frame_of(std::size_t lane, float top, float height) const {
    double low = 0, high = 0;
    bool begins = reading(lane).swings;
    for (const auto& tile : tiles_) {
      for (std::size_t k = 0; k < tile->filled(); ++k) {
        const SimTime at = tile->from + tile->width * static_cast<SimTime>(k);
        if (!is_seen(at)) continue;
        const auto least = static_cast<double>(tile->at(k, lane).least);
        const auto most = static_cast<double>(tile->at(k, lane).most);
        low = begins ? least : std::min(low, least);
        high = begins ? most : std::max(high, most);
        begins = false;
      }
    }
    // The present value is shown too, also where nothing has been written yet.
    if (lane < plot_.values_.size() && is_seen(plot_.now_)) {
      const double now = plot_.values_[lane];
      low = begins ? now : std::min(low, now);
      high = begins ? now : std::max(high, now);
    }
    if (reading(lane).swings) return fitted(low, high, shown_unit(reading(lane)), top, height);
    const double most = std::max({high, -low, 0.0});
    const double scale = most > 0 ? axis_above(most) : 1;
    return {top, height, low < -0.02 * scale ? -axis_above(-low) : 0, scale};
  }

  /// Between whole steps about what is seen.
  static Frame fitted(double low, double high, double unit, float top, float height) {
    const double range = std::max((high - low) / unit, kLeastSwing);
    const double step = round_above(range / 4) * unit;
    const double from = std::floor(low / step) * step, to = std::ceil(high / step) * step;
    return {top, height, from, std::max(to, from + step)};
  }

  void paint_lane(std::size_t lane, float top, float height) {
    const Frame frame = frame_of(lane, top, height);
    const sf::Color colour = theme_.lanes[lane == 0 ? 1 : 2];
    const NamedDecl& told = reading(lane);
    const float zero_y = frame.y(frame.zero());
    for (const double value : std::set<double>{frame.low, frame.zero(), frame.high}) {
      const float y = frame.y(value);
      painter_.rectangle({left_, y}, {right_ - left_, 1}, theme_.rule);
      // Where a little lies beyond nothing, there is room for one of the two.
      if (value != frame.zero() && std::fabs(y - zero_y) < kPlotBody + 1) continue;
      words(shown_text(value, told), {left_ - 6, y}, theme_.second_text, false,
            Lettering::Align::kRight);
    }
    paint_curve(lane, frame, colour);
    // Where the curve is not, at the beginning.
    const bool is_high =
        !tiles_.empty() && tiles_.front()->filled() > 0 &&
        frame.y(static_cast<double>(tiles_.front()->at(0, lane).first)) < top + height / 2;
    words(words_of_reading(told), {left_ + 6, is_high ? top + height - 10 : top + 10}, colour,
          true);
  }

  /// Up to now as a line over its fill, and what is known of later dashed.
  void paint_curve(std::size_t lane, const Frame& frame, sf::Color colour) {
    std::vector<Pixel> done, later;
    const float zero_y = frame.y(frame.zero());
    const auto put = [&](SimTime t, double value) {
      const Pixel at(x(t), frame.y(value));
      if (t <= plot_.now_) done.push_back(at);
      if (t >= plot_.now_ || (later.empty() && t + plot_.span_.column() > plot_.now_))
        later.push_back(at);
    };
    for (const auto& tile : tiles_) {
      for (std::size_t k = 0; k < tile->filled(); ++k) {
        const SimTime from = tile->from + tile->width * static_cast<SimTime>(k);
        if (!is_seen(from) || !is_seen(from + tile->width)) continue;
        const Column& c = tile->at(k, lane);
        if (done.empty() && later.empty()) put(from, static_cast<double>(c.first));
        // A peak within the column is seen too.
        if (c.most > std::max(c.first, c.last))
          put(from + tile->width / 2, static_cast<double>(c.most));
        if (c.least < std::min(c.first, c.last))
          put(from + tile->width / 2, static_cast<double>(c.least));
        put(from + tile->width, static_cast<double>(c.last));
      }
    }
    if (lane < plot_.values_.size() && is_seen(plot_.now_)) {
      const Pixel now(x(plot_.now_), frame.y(plot_.values_[lane]));
      done.push_back(now);
    }
    for (std::size_t k = 1; k < done.size(); ++k) {
      const float y = std::min(done[k].y, zero_y), high = std::fabs(zero_y - done[k].y);
      painter_.rectangle({done[k - 1].x, y}, {done[k].x - done[k - 1].x, high},
                         with_alpha(colour, 0.22F));
    }
    if (done.size() > 1) painter_.line(done, kLine_px, colour);
    if (later.size() > 1)
      painter_.dashes(later, 1.5F, mix(colour, theme_.panel, 0.3F), std::array{6.0F, 4.0F});
    if (!done.empty() && is_seen(plot_.now_)) painter_.mesh().disc(done.back(), 4, colour, colour);
  }

  void paint_now() {
    if (!is_seen(plot_.now_)) return;
    const float at = x(plot_.now_);
    painter_.rectangle({at - 1, top_}, {2, foot_ - top_ + 3}, theme_.text);
    const float left = std::clamp(at - 20, left_, right_ - 40);
    painter_.rectangle({left, foot_ + 4}, {40, 18}, theme_.text);
    words(tr("now"), {left + 20, foot_ + 13}, theme_.panel, true, Lettering::Align::kMiddle);
  }

  const PartPlot& plot_;
  Painter& painter_;
  const Theme& theme_;
  std::vector<std::shared_ptr<const Tile>> tiles_;
  float left_ = 0, right_ = 1, top_ = 0, foot_ = 1;
};

void PartPlot::paint(Painter& painter) const {
  if (part_) Brush(*this, painter).paint();
}

}  // namespace sixty::gui
