#pragma once

#include <SFML/Graphics/Rect.hpp>
#include <memory>
#include <mutex>
#include <optional>

#include "gui/bench/bench.hpp"
#include "gui/bench/clerk.hpp"
#include "gui/paint/painter.hpp"
#include "gui/strip/burst.hpp"
#include "gui/strip/scribe.hpp"
#include "gui/strip/span.hpp"

namespace sixty::gui {

/// What a plot of a part shows: what always swings of it; or its current, or what else it has as a
/// curve, and below it how far its armature has to go, or whether its contact is closed. Nothing:
/// it has no such readings.
std::vector<LaneOf> lanes_of_plot(const Installation& installation, PartId part);

/// A plot of the selected part's current against time, as it happens: from just before what has
/// happened there last, so that one sees how the armature's coming dips into it. Written by a
/// session of its own, as the strip is, and looked for by another.
class PartPlot {
 public:
  explicit PartPlot(const std::shared_ptr<const Installation>& installation)
      : installation_(installation), scribe_(installation), session_(installation) {}

  /// What of a canvas is left to a part's drawing, above its plot.
  sf::FloatRect rest_of(const sf::FloatRect& canvas, View view, std::optional<PartId> part) const;
  /// Takes what is to be shown below the drawing. Order: before paint().
  void follow(const Bench& bench, View view, const sf::FloatRect& canvas);
  void paint(Painter& painter) const;
  /// Until what is shown is found and written (for pictures and tests).
  void wait(const Bench& bench, View view, const sf::FloatRect& canvas);

  /// Something of what is shown is still looked for, or written.
  bool is_busy() const { return clerk_.is_busy() || scribe_.is_busy(); }
  const std::optional<Burst>& burst() const { return burst_; }
  const Span& span() const { return span_; }
  /// What is written of the time that is shown, from left to right.
  std::vector<std::shared_ptr<const Tile>> written() const;

 private:
  class Brush;
  using Log = std::shared_ptr<const std::vector<Action>>;
  /// What was asked of the clerk, and what it has found.
  struct Found {
    PartId part = 0;
    SimTime at = -1;
    Log log;
    std::optional<Burst> burst;
  };
  /// Something of what is shown always moves: no event begins or ends it. Range: lanes are shown.
  bool swings() const;
  void ask(const Bench& bench, PartId part);
  void take(const Bench& bench, PartId part);

  std::shared_ptr<const Installation> installation_;
  Scribe scribe_;
  std::vector<LaneOf> lanes_;
  std::optional<PartId> part_;  ///< none: nothing is shown
  std::optional<Burst> burst_;
  bool quiet_ = false;  ///< it has been looked for, and there is none
  SimTime now_ = 0, reach_ = 0;
  Stretched window_;
  Span span_;
  sf::FloatRect box_;
  std::vector<double> values_;  ///< of the lanes, now
  Found asked_;
  mutable std::mutex mutex_;
  Found found_;
  Session session_;  ///< the clerk's
  Clerk clerk_;      // last: it uses all of the others
};

}  // namespace sixty::gui
