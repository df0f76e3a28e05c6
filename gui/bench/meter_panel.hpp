#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gui/bench/bench.hpp"
#include "gui/bench/laid_meters.hpp"
#include "gui/bench/meters.hpp"
#include "gui/bench/panel.hpp"

namespace sixty::gui {

/// The instruments that are laid on, and the two tips that wait to be.
class MeterPanel {
 public:
  explicit MeterPanel(std::shared_ptr<const Installation> installation)
      : meters_(std::move(installation)) {}
  void toggle() { open_ = !open_; }
  bool is_open() const { return open_; }
  /// Lays an instrument on, as instruments::read_order() takes it.
  void add(const Bench& bench, const std::string& order);
  /// Whether the next press on a terminal puts a tip there.
  bool is_placing() const { return open_ && placing_.has_value(); }
  void put_tip(const Bench& bench, const Terminal& terminal);
  /// Where tips are: of all that is laid on, and the one that waits for its second.
  std::vector<MeterTip> tips() const;
  /// Lanes of the recorder's channels, and what each reads now; not a number: nothing yet.
  std::vector<LaneOf> channels() const { return laid_.channels(); }
  std::vector<double> channel_values() const;
  /// What is read of the meters whose tips are at a part, a line each.
  std::vector<std::string> read_at(PartId part) const;
  void follow(const Bench& bench);
  /// It waits for what an instrument reads.
  bool is_busy() const { return meters_.is_busy(); }
  /// What of a room it leaves to the drawing: all that is right of it, or, where that would be less
  /// than kLeastDrawing, all of it, and the panel has to stand elsewhere. Units: pixels.
  sf::FloatRect rest_of(sf::FloatRect room) const;
  /// What it takes of a column that it shares with a card: the lower part, as high as it needs and
  /// not so high that nothing of the card is left.
  sf::FloatRect share_of(const sf::FloatRect& column) const;
  static constexpr float kLeastDrawing = 800, kWidth = 404;
  /// Floats at the upper left of a room.
  void show_beside(Bench& bench, const sf::FloatRect& room);
  /// Fills a box from its top on.
  void show_in(Bench& bench, const sf::FloatRect& box);
  /// Until all is read (for pictures and tests).
  void wait() const { meters_.wait(); }

 private:
  void show(Bench& bench, float width, float most_high);
  void show_all(const Bench& bench);
  void show_choice();
  void show_one(const Bench& bench, std::size_t place, const Meters::Told& told);
  void show_foot(const Bench& bench, std::size_t place);

  Meters meters_;
  LaidMeters laid_;
  std::optional<std::string> placing_;  ///< what is to be measured between the tips
  std::optional<Terminal> first_;       ///< where the first of them is
  std::string mistake_;
  std::optional<std::size_t> off_;  ///< what is to be taken off
  SimTime asked_at_ = -1;
  Meters::Log asked_log_;
  std::vector<std::string> asked_;
  bool open_ = false;
  float high_ = 150;  ///< that it takes to be seen whole, as it was shown last; pixels
};

}  // namespace sixty::gui
