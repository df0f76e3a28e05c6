#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "gui/paint/text_width.hpp"
#include "gui/strip/axis.hpp"
#include "gui/strip/strip.hpp"
#include "sim/explain/link.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kBody = 13;
constexpr float kLeastBar_px = 2;  // a pulse far shorter than a pixel is still seen
constexpr float kLine_px = 1.6F;

bool has_changed(const Column& c) { return c.first != c.last || c.least != c.most; }

}  // namespace

/// Paints one strip once.
class Strip::Brush {
 public:
  Brush(const Strip& strip, Painter& painter)
      : strip_(strip), painter_(painter), theme_(painter.theme()), plot_(strip.plot()) {}

  void paint(std::optional<Pixel> pointer) {
    const sf::FloatRect& box = strip_.box_;
    painter_.rectangle({box.left, box.top}, {box.width, box.height}, theme_.panel);
    paint_unknown();
    paint_ruler();
    tiles_ = strip_.written();
    if (strip_.twin_ != nullptr) twins_ = strip_.written_by(*strip_.twin_);
    for (const Row& row : strip_.rows()) paint_row(row);
    paint_scroll();
    paint_gaps();
    paint_first_difference();
    paint_marks();
    paint_present();
    if (pointer) paint_tip(*pointer);
  }

 private:
  const Installation& installation() const { return *strip_.installation_; }
  float x(SimTime t) const {
    return std::clamp(strip_.span_.pixel(t), plot_.left, plot_.left + plot_.width);
  }
  float right() const { return plot_.left + plot_.width; }
  /// Ground of time of which nothing can be told.
  sf::Color unknown() const { return mix(theme_.panel, theme_.ground, 0.75F); }

  void paint_unknown() {
    const float known = x(strip_.course_.reach), begins = x(0);
    const float top = plot_.top - kRuler, height = plot_.height + kRuler;
    if (known < right()) painter_.rectangle({known, top}, {right() - known, height}, unknown());
    if (begins > plot_.left)
      painter_.rectangle({plot_.left, top}, {begins - plot_.left, height}, unknown());
  }

  void put_words(const std::string& text, Pixel at, float em) {
    painter_.letters({text, at, em, theme_.second_text, Lettering::Align::kLeft, false});
  }

  void paint_ruler() {
    const float foot = plot_.top - 1;
    painter_.rectangle({plot_.left, foot}, {plot_.width, 1}, theme_.rule);
    const Plate plate = present();
    for (const Tick& tick : ticks_of(strip_.span_, installation().clock)) {
      const float at = strip_.span_.pixel(tick.at);
      if (at < plot_.left || at > right()) continue;
      const float size = tick.text.empty() ? 4 : 8;
      painter_.rectangle({at, foot - size}, {1, size}, theme_.second_text);
      const float begins = at + 4, ends = begins + text_width(tick.text, kTickEm);
      const bool is_free = ends + 4 < plate.left || begins > plate.left + plate.wide;
      if (!tick.text.empty() && is_free && ends < right())
        put_words(tick.text, {begins, plot_.top - kRuler + 7}, kTickEm);
    }
  }

  /// Calls `deed(left, right, column)` for each column of a lane that can be seen.
  template <class Deed>
  void each_column(std::size_t lane, const Deed& deed) const {
    each_column(tiles_, lane, deed);
  }
  /// A sound installation has no recorder laid on.
  template <class Deed>
  void each_column_of_twin(std::size_t lane, const Deed& deed) const {
    const std::size_t recorded = strip_.recording_.channels().size();
    if (lane >= recorded) each_column(twins_, lane - recorded, deed);
  }
  template <class Deed>
  void each_column(const std::vector<std::shared_ptr<const Tile>>& tiles, std::size_t lane,
                   const Deed& deed) const {
    for (const auto& tile : tiles) {
      for (std::size_t k = 0; k < tile->filled(); ++k) {
        const SimTime from = tile->from + tile->width * static_cast<SimTime>(k);
        const float a = strip_.span_.pixel(from), b = strip_.span_.pixel(from + tile->width);
        const bool known = std::isfinite(tile->at(k, lane).last);
        if (known && b >= plot_.left && a <= right())
          deed(std::max(a, plot_.left), std::min(b, right()), tile->at(k, lane));
      }
    }
  }

  sf::Color colour_of(const LaneOf& lane) const {
    const NamedDecl& reading = reading_of(installation(), lane);
    switch (lane.form) {
      case Lane::kBar:
        return theme_.lanes[0];
      case Lane::kCount:
        return theme_.lanes[2];
      default:
        return theme_.lanes[reading.unit == "V" ? 3 : 1];
    }
  }

  void paint_row(const Row& row) {
    const LaneOf& lane = strip_.lanes_[row.lane];
    const bool selected = strip_.is_selected(lane);
    const float middle = row.top + row.height / 2;
    const float left = strip_.box_.left;
    if (selected) painter_.rectangle({left, row.top}, {3, row.height}, theme_.grab);
    paint_name(row, selected);
    if (const auto now = now_of(row.lane))
      painter_.letters({text_of(lane, *now),
                        {left + kNames + kValues - 10, middle},
                        kBody,
                        theme_.text,
                        Lettering::Align::kRight,
                        false});
    switch (lane.form) {
      case Lane::kBar:
        paint_bar(row);
        break;
      case Lane::kCount:
        paint_strokes(row);
        break;
      default:
        paint_curve(row);
        return;
    }
    paint_twin(row);
  }

  /// In two lines, where it is too long for one and the lane is high enough.
  void paint_name(const Row& row, bool selected) {
    constexpr float kLine = 1.2F * kBody;
    const std::string name = name_of(installation(), strip_.lanes_[row.lane]);
    const std::size_t most = row.height >= 2 * kLine ? 2 : 1;
    const std::vector<std::string> lines = fitted_lines(name, kNames - 24, kBody, selected, most);
    const sf::Color colour = selected ? theme_.text : theme_.second_text;
    Pixel at(strip_.box_.left + 12, row.top + row.height / 2);
    at.y -= kLine * static_cast<float>(lines.size() - 1) / 2;
    for (const std::string& line : lines) {
      painter_.letters({line, at, kBody, colour, Lettering::Align::kLeft, selected});
      at.y += kLine;
    }
  }

  /// Which of the lanes are seen, where there is no room for all.
  void paint_scroll() {
    const std::vector<Row> rows = strip_.rows();
    const std::size_t all = strip_.lanes_.size();
    if (rows.empty() || rows.size() == all) return;
    const float left = plot_.left - 5, each = plot_.height / static_cast<float>(all);
    painter_.rectangle({left, plot_.top}, {3, plot_.height}, theme_.rule);
    painter_.rectangle({left, plot_.top + each * static_cast<float>(rows.front().lane)},
                       {3, each * static_cast<float>(rows.size())}, theme_.edge);
  }

  /// What a lane is now, where that can be told.
  std::optional<double> now_of(std::size_t lane) const {
    const std::vector<double>& values = strip_.course_.values;
    return lane < values.size() && std::isfinite(values[lane]) ? std::optional(values[lane])
                                                               : std::nullopt;
  }

  std::string text_of(const LaneOf& lane, double value) const {
    if (lane.form == Lane::kBar)
      return value != 0 ? tr_as("state", "closed") : tr_as("state", "open");
    return shown_text(value, reading_of(installation(), lane));
  }

  /// Where a lane is when it is nothing, as far as it is known.
  void paint_base(float y, sf::Color colour) {
    painter_.rectangle({x(0), y}, {x(strip_.course_.reach) - x(0), 1}, with_alpha(colour, 0.55F));
  }

  void paint_bar(const Row& row) {
    const sf::Color colour = colour_of(strip_.lanes_[row.lane]);
    paint_base(row.top + row.height - 4, colour);
    float begun = -1, ends = -1;
    const auto put = [&] {
      if (begun < 0) return;
      const float wide = std::max(ends - begun, kLeastBar_px);
      painter_.rectangle({begun, row.top + 3}, {wide, row.height - 7}, colour);
      begun = -1;
    };
    each_column(row.lane, [&](float a, float b, const Column& c) {
      if (c.most == 0) {
        put();
        return;
      }
      if (begun < 0 || a > ends + 0.5F) {
        put();
        begun = a;
      }
      ends = b;
    });
    put();
  }

  void paint_strokes(const Row& row) {
    const sf::Color colour = colour_of(strip_.lanes_[row.lane]);
    const float foot = row.top + row.height - 4;
    paint_base(foot, colour);
    float last = -10;
    each_column(row.lane, [&](float a, float b, const Column& c) {
      if (!has_changed(c)) return;
      const float at = (a + b) / 2;
      // Closer than that they are one bar of half the height, with a comb's edge.
      const bool dense = at - last < 3.5F;
      const float high = dense ? 0.5F * row.height : row.height - 6;
      painter_.rectangle({at - 1, foot - high}, {2, high}, colour);
      if (dense) painter_.rectangle({last, foot - high}, {at - last, high}, colour);
      if (!dense) painter_.rectangle({at - 1, foot - high}, {5, 3}, colour);
      last = at;
    });
  }

  Reach reach_of(std::size_t lane) const {
    Reach reach;
    const auto take = [&](float, float, const Column& c) { reach.take(c); };
    each_column(lane, take);
    each_column_of_twin(lane, take);
    if (const auto now = now_of(lane)) reach.take(*now);
    return reach;
  }

  /// Of a recorder's lane nothing is written yet, though of the others there is.
  void paint_waiting(const Row& row) {
    bool any = tiles_.empty();
    each_column(row.lane, [&](float, float, const Column&) { any = true; });
    if (any) return;
    put_words(tr("being written ..."), {plot_.left + 8, row.top + row.height / 2}, kBody);
  }

  /// The ends of a large lane's axis, and how far that goes which is cut off.
  void paint_axis(const Row& row, const Axis& axis, const Reach& reach) {
    if (row.height < 50) return;
    const NamedDecl& reading = reading_of(installation(), strip_.lanes_[row.lane]);
    const auto put = [&](double value, float y, bool is_beyond, double end) {
      std::string text = shown_text(value, reading);
      if (is_beyond) text = say("{}, cut off; reaches {}", text, shown_text(end, reading));
      put_words(text, {plot_.left + 4, y}, kBody - 1);
    };
    put(axis.high, row.top + 8, axis.is_beyond_high, reach.high);
    put(axis.low, row.top + row.height - 9, axis.is_beyond_low, reach.low);
  }

  /// An arrow's head at the edge, where a curve leaves the lane.
  void paint_beyond(const Row& row, const Axis& axis) {
    constexpr float kHalf = 4, kApart = 9;
    const sf::Color colour = theme_.wrong;
    const auto put = [&](float at, float edge, float inward) {
      const std::array<Pixel, 3> head{Pixel(at, edge), Pixel(at - kHalf, edge + inward * 7),
                                      Pixel(at + kHalf, edge + inward * 7)};
      painter_.mesh().fill(head, [&](Pixel) { return colour; });
    };
    float last_low = -kApart, last_high = -kApart;
    each_column(row.lane, [&](float a, float b, const Column& c) {
      const float at = (a + b) / 2;
      if (static_cast<double>(c.most) > axis.high && at - last_high >= kApart) {
        put(at, row.top + 1, 1);
        last_high = at;
      }
      if (static_cast<double>(c.least) < axis.low && at - last_low >= kApart) {
        put(at, row.top + row.height - 2, -1);
        last_low = at;
      }
    });
  }

  void paint_curve(const Row& row) {
    const sf::Color colour = colour_of(strip_.lanes_[row.lane]);
    const Reach reach = reach_of(row.lane);
    const bool is_volts = reading_of(installation(), strip_.lanes_[row.lane]).unit == "V";
    const Axis axis = axis_of(reach, is_volts);
    const float top = row.top + 2, room = row.height - 5;
    const auto y = [&](double value) {
      return top +
             room * static_cast<float>((axis.high - axis.clamped(value)) / (axis.high - axis.low));
    };
    const float zero = y(std::max(axis.low, 0.0));
    paint_base(zero, colour);
    paint_axis(row, axis, reach);
    if (row.lane < strip_.recording_.channels().size()) paint_waiting(row);
    std::optional<float> before;
    float flat_from = -1, flat_to = -1, flat_y = 0;
    const auto put_flat = [&] {
      if (flat_from < 0) return;
      fill(flat_from, flat_to, flat_y, zero, colour);
      painter_.rectangle({flat_from, flat_y - kLine_px / 2}, {flat_to - flat_from, kLine_px},
                         colour);
      flat_from = -1;
    };
    each_column(row.lane, [&](float a, float b, const Column& c) {
      const float at = y(c.last);
      const bool flat = !has_changed(c) && before && std::fabs(*before - at) < 0.05F;
      before = at;
      if (flat && flat_from >= 0 && a <= flat_to + 0.5F) {
        flat_to = b;
        return;
      }
      put_flat();
      if (flat || !has_changed(c)) {
        flat_from = a;
        flat_to = b;
        flat_y = at;
        return;
      }
      const float up = y(c.most), down = std::max(y(c.least), up + kLine_px);
      fill(a, b, y(std::fabs(c.most) >= std::fabs(c.least) ? c.most : c.least), zero, colour);
      painter_.rectangle({a, up - kLine_px / 2}, {std::max(b - a, kLine_px), down - up}, colour);
    });
    put_flat();
    if (axis.is_beyond_low || axis.is_beyond_high) paint_beyond(row, axis);
    each_column_of_twin(row.lane, [&](float a, float b, const Column& c) {
      if (std::fmod(a, 8.0F) > 5) return;
      const float up = y(c.most), down = y(c.least);
      painter_.rectangle({a, up - 0.75F}, {std::min(b, a + 5) - a, down - up + 1.5F}, theme_.text);
    });
  }

  /// A dashed line at the top while the twin's is closed, or at each of its strokes.
  void paint_twin(const Row& row) {
    const Lane form = strip_.lanes_[row.lane].form;
    each_column_of_twin(row.lane, [&](float a, float b, const Column& c) {
      const bool shown = form == Lane::kBar ? c.most != 0 : has_changed(c);
      if (!shown) return;
      const float to = std::max(b, a + kLeastBar_px);
      for (float x = std::floor(a / 8) * 8; x < to; x += 8) {
        const float from = std::max(x, a), end = std::min(x + 5, to);
        if (end > from) painter_.rectangle({from, row.top + 0.5F}, {end - from, 1.5F}, theme_.text);
      }
    });
  }

  /// Where nothing is written yet.
  void paint_gaps() {
    const auto put = [&](float a, float b) {
      if (b - a < 2) return;
      painter_.rectangle({a, plot_.top}, {b - a, plot_.height}, unknown());
      if (b - a > 130)
        painter_.letters({tr("being written ..."),
                          {(a + b) / 2, plot_.top + plot_.height / 2},
                          kBody,
                          theme_.second_text,
                          Lettering::Align::kMiddle,
                          false});
    };
    float written = x(0);
    for (const auto& tile : tiles_) {
      put(written, x(tile->from));
      written = x(tile->from + tile->width * static_cast<SimTime>(tile->filled()));
    }
    // The last column is written when it is over.
    const float known = x(strip_.course_.reach);
    const double column_px =
        static_cast<double>(strip_.span_.column()) / strip_.span_.per_pixel_ns();
    if (known - written > static_cast<float>(column_px) + 2) put(written, known);
  }

  void paint_first_difference() {
    if (!strip_.course_.first_difference) return;
    const auto& [when, part] = *strip_.course_.first_difference;
    const float at = strip_.span_.pixel(when);
    if (at < plot_.left || at > right()) return;
    float y = plot_.top + 8;
    for (const Row& row : strip_.rows()) {
      if (strip_.lanes_[row.lane].part == part) {
        y = row.top + row.height / 2;
        break;
      }
    }
    const std::array<Pixel, 5> diamond{Pixel(at, y - 8), Pixel(at + 8, y), Pixel(at, y + 8),
                                       Pixel(at - 8, y), Pixel(at, y - 8)};
    painter_.line(diamond, 2, theme_.wrong);
    const std::string words = tr("first difference");
    const float wide = text_width(words, kBody, true) + 14;
    const bool fits = at + 14 + wide < right();
    const float left = fits ? at + 14 : at - 14 - wide;
    painter_.rectangle({left, y - 9}, {wide, 18}, theme_.wrong);
    painter_.letters(
        {words, {left + wide / 2, y}, kBody, theme_.ground, Lettering::Align::kMiddle, true});
  }

  void fill(float a, float b, float from, float to, sf::Color colour) {
    if (std::fabs(to - from) < 1) return;
    painter_.rectangle({a, std::min(from, to)}, {b - a, std::fabs(to - from)},
                       with_alpha(colour, 0.3F));
  }

  void paint_marks() {
    for (std::size_t k = 0; k < 2; ++k) {
      if (!strip_.marks_[k]) continue;
      const float at = strip_.span_.pixel(*strip_.marks_[k]);
      if (at < plot_.left || at > right()) continue;
      for (float y = plot_.top; y < plot_.top + plot_.height; y += 9)
        painter_.rectangle({at, y}, {1, 5}, theme_.text);
      const auto [text, left, wide] = present();
      const bool covered = at + 8 > left && at - 8 < left + wide;
      const float top = covered ? plot_.top + 1 : plot_.top - kRuler + 1;
      painter_.rectangle({at - 8, top}, {16, 16}, theme_.text);
      painter_.letters({std::to_string(k + 1),
                        {at, top + 8},
                        kBody,
                        theme_.panel,
                        Lettering::Align::kMiddle,
                        true});
    }
  }

  struct Plate {
    std::string text;
    float left = 0, wide = 0;
  };
  /// The time that it is, on the ruler.
  Plate present() const {
    const int digits = strip_.span_.length() < 100 * kMillisecond ? 6 : 3;
    const std::string whole = format_weekday_time(installation().clock, strip_.course_.now, digits);
    const std::string text = spoken_number(whole.substr(4));  // behind "Mon "
    const float wide = text_width(text, kBody, true) + 12;
    return {text, std::min(x(strip_.course_.now) - wide / 2, right() - wide), wide};
  }

  void paint_present() {
    painter_.rectangle({x(strip_.course_.now) - 1, plot_.top - kRuler}, {2, plot_.height + kRuler},
                       theme_.text);
    const auto [text, left, wide] = present();
    painter_.rectangle({left, plot_.top - kRuler - 1}, {wide, 18}, theme_.text);
    painter_.letters({text,
                      {left + wide / 2, plot_.top - kRuler + 8},
                      kBody,
                      theme_.panel,
                      Lettering::Align::kMiddle,
                      true});
  }

  /// What a lane was where the pointer is.
  void paint_tip(Pixel pointer) {
    if (pointer.x < plot_.left || pointer.x > right() || pointer.y < plot_.top) return;
    const SimTime t = strip_.span_.time_at(pointer.x);
    for (const Row& row : strip_.rows()) {
      if (pointer.y < row.top || pointer.y >= row.top + row.height) continue;
      const LaneOf& lane = strip_.lanes_[row.lane];
      std::string said = tr("not yet known");
      each_column(row.lane, [&](float a, float b, const Column& c) {
        if (pointer.x < a || pointer.x > b) return;
        said = text_of(lane, c.last);
        if (lane.form == Lane::kCurve && c.least != c.most)
          said = say("{} to {}", text_of(lane, c.least), text_of(lane, c.most));
      });
      const SimTime off = t - strip_.course_.now;
      put_tip(pointer, say("{}: {}", name_of(installation(), lane), said),
              off < 0 ? say("{} before now", length_text(-off))
                      : say("{} after now", length_text(off)));
      return;
    }
  }

  void put_tip(Pixel pointer, const std::string& first, const std::string& second) {
    const Pixel size(std::max(text_width(first, kBody, true), text_width(second, kBody)) + 20, 42);
    const float left = pointer.x + 14 + size.x < right() ? pointer.x + 14 : pointer.x - 14 - size.x;
    const float top = std::min(pointer.y + 10, plot_.top + plot_.height - size.y);
    painter_.rectangle(Pixel(left - 1, top - 1), size + Pixel(2, 2), theme_.edge);
    painter_.rectangle({left, top}, size, theme_.raised);
    painter_.letters(
        {first, {left + 10, top + 13}, kBody, theme_.text, Lettering::Align::kLeft, true});
    painter_.letters(
        {second, {left + 10, top + 30}, kBody, theme_.second_text, Lettering::Align::kLeft, false});
  }

  const Strip& strip_;
  Painter& painter_;
  const Theme& theme_;
  sf::FloatRect plot_;
  std::vector<std::shared_ptr<const Tile>> tiles_, twins_;
};

void Strip::paint(Painter& painter, std::optional<Pixel> pointer) const {
  Brush(*this, painter).paint(pointer);
}

}  // namespace sixty::gui
