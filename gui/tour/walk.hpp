#pragma once

#include <SFML/Graphics/Rect.hpp>
#include <SFML/Window/Event.hpp>
#include <memory>
#include <optional>
#include <string>

#include "gui/bench/bench.hpp"
#include "gui/paint/letters.hpp"
#include "gui/tour/guide.hpp"
#include "sim/tour/tour.hpp"

namespace sixty::gui {

/// From where a stop looks.
View view_of(Scope scope);

/// A tour that is being walked: puts the run where each step wants it, and shows what is said over
/// it. While it stands the bench is as ever.
class Walk {
 public:
  Walk(std::shared_ptr<const Tour> tour, Guide::Way way, std::size_t first);
  /// Goes on. Returns whether another step has begun, to whose view the camera is to travel. Units:
  /// s of the wall.
  bool follow(Bench& bench, double wall_s);
  /// As far in the step as to see what it is about, and no farther: for a picture.
  void settle(Bench& bench);
  /// Whether a press or key is the tour's alone; it may stop it, or send it on.
  bool takes(const sf::Event& event, Bench& bench);

  const TourStep& step() const { return tour_->steps[guide_.step()]; }
  Guide& guide() { return guide_; }
  const Guide& guide() const { return guide_; }
  /// Its words stand over the drawing, and nothing else of the bench does.
  bool shows() const { return guide_.talks() || !guide_.stands(); }
  /// The lanes, and behind them the readings that are told.
  std::vector<LaneOf> lanes_and_readings(std::vector<LaneOf> lanes,
                                         const Installation& installation);
  /// What is left for the drawing of a window of that size. Units: pixels.
  sf::FloatRect canvas(const Installation& installation, const Letters& letters, Pixel size) const;
  /// Dims what is not lit, and puts the words below.
  void paint(const Bench& bench, const Letters& letters, Pixel size, Painter& painter) const;
  /// The panel of a tour that stands, in the middle of the foot of that box. Returns false as soon
  /// as it is to be left.
  bool show(const sf::FloatRect& box);

 private:
  struct Type;
  Type type(Pixel size) const;
  std::vector<std::string> lines(const Bench& bench, const Letters& letters, Pixel size) const;
  float band_height(const Installation& installation, const Letters& letters, Pixel size) const;
  void paint_words(const Bench& bench, const Letters& letters, const sf::FloatRect& band,
                   Painter& painter) const;
  void stand(Bench& bench);

  std::shared_ptr<const Tour> tour_;
  Guide guide_;
  std::uint64_t begun_ = 0;        ///< of the guide's, that the run has been put to
  std::size_t first_reading_ = 0;  ///< among the picture's lanes
  /// How high the band of words is for what was asked about last: breaking all words of a
  /// tour takes longer than a frame should.
  struct Band {
    Pixel size;
    std::string language;
    float height = 0;
  };
  mutable std::optional<Band> band_;
};

}  // namespace sixty::gui
