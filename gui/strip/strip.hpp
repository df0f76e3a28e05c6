#pragma once

#include <SFML/Graphics/Rect.hpp>
#include <array>
#include <optional>
#include <vector>

#include "gui/paint/painter.hpp"
#include "gui/strip/recording.hpp"
#include "gui/strip/scribe.hpp"
#include "gui/strip/span.hpp"

namespace sixty::gui {

/// What the strip is shown of the run.
struct Course {
  SimTime now = 0, reach = 0;
  std::shared_ptr<const std::vector<Action>> log;
  std::vector<double> values;  ///< of its lanes, now
  bool twin = false;           ///< a sound installation's lanes are shown too
  /// Where the run first goes otherwise than a sound one, and at which part.
  std::optional<std::pair<SimTime, PartId>> first_difference;
};

/// The strip of time under the drawing: lanes of what parts did, one below the other, with the
/// present at one place while time goes by.
class Strip {
 public:
  Strip(const std::shared_ptr<const Installation>& installation,
        std::shared_ptr<const Installation> sound);

  const std::vector<LaneOf>& lanes() const { return lanes_; }
  /// Those that are chosen; a recorder's and the selected part's stand before them.
  const std::vector<LaneOf>& chosen() const { return base_; }
  void set_lanes(std::vector<LaneOf> lanes);
  /// Lanes of the lines of clocks and the zones.
  const std::vector<LaneOf>& lines() const { return lines_; }
  /// As long as nobody has chosen lanes: those of the whole house, or those of the case.
  void look_from_afar(bool afar);
  /// What a recorder writes, laid on in a run of its own, and what each of its channels reads now.
  void record(const std::vector<LaneOf>& channels, std::vector<double> now);
  /// What is written of the time that is shown, from left to right.
  std::vector<std::shared_ptr<const Tile>> written() const;
  /// Those of the case, and those of the part that is selected before them.
  void select(std::optional<PartId> part);
  /// Takes what is to be shown, in that box of the window; heads stand above the lanes in it.
  void follow(const Course& course, const sf::FloatRect& box);
  void paint(Painter& painter, std::optional<Pixel> pointer) const;
  /// Waits until what is shown is written.
  void wait() const;
  /// Not all of what is shown is written yet.
  bool is_busy() const { return scribe_.is_busy() || (twin_ != nullptr && twin_->is_busy()); }

  /// The pointer's doings in the box. drag() returns where time is to go.
  void press(Pixel at, bool marks);
  std::optional<SimTime> drag(Pixel to);
  /// Returns the time that was pointed at, on the ruler, or nothing.
  std::optional<SimTime> release(Pixel at);
  SimTime time_at(Pixel at) const { return std::max<SimTime>(span_.time_at(at.x), 0); }
  /// The part whose lane is there.
  std::optional<PartId> part_at(Pixel at) const;
  void zoom_at(float steps) { span_.zoom(std::pow(0.8, steps)); }
  void scroll(int lanes);
  /// Puts the next of the two markers there.
  void mark(SimTime at);
  void clear_marks() { marks_ = {}; }
  const std::array<std::optional<SimTime>, 2>& marks() const { return marks_; }
  /// Where its lanes begin, below the ruler. Units: pixels of the window.
  float plot_top() const { return plot().top; }
  Span& span() { return span_; }
  const Span& span() const { return span_; }

  static constexpr float kHead = 34, kRuler = 20, kNames = 196, kValues = 92;

 private:
  struct Row {
    std::size_t lane = 0;
    float top = 0, height = 0;
  };
  class Brush;
  sf::FloatRect plot() const;
  float height_of(const LaneOf& lane) const;
  bool is_selected(const LaneOf& lane) const;
  std::vector<Row> rows() const;
  std::vector<LaneOf> plain_lanes() const;
  Scribe::Wanted wanted() const;
  std::vector<std::shared_ptr<const Tile>> written_by(const Scribe& scribe) const;

  std::shared_ptr<const Installation> installation_;
  std::shared_ptr<const Installation> sound_;
  Scribe scribe_;
  std::unique_ptr<Scribe> twin_;  ///< as soon as it is to be seen
  Recording recording_;
  std::vector<LaneOf> lines_, base_, lanes_;
  bool by_hand_ = false, afar_ = false;  ///< how those at the base were chosen
  std::optional<PartId> selected_;
  Course course_;
  sf::FloatRect box_;
  Span span_;
  std::size_t first_ = 0;  ///< lane at the top
  std::array<std::optional<SimTime>, 2> marks_;
  std::optional<Pixel> pressed_;
  SimTime pressed_now_ = 0, pressed_time_ = 0;
  bool marking_ = false, dragged_ = false;
};

}  // namespace sixty::gui
