#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gui/bench/bench.hpp"
#include "gui/bench/meters.hpp"
#include "gui/bench/panel.hpp"

namespace sixty::gui {

/// The instruments that are laid on, and the two tips that wait to be.
class MeterPanel {
 public:
  explicit MeterPanel(std::shared_ptr<const Installation> installation)
      : meters_(std::move(installation)) {}
  void toggle() { open_ = !open_; }
  /// Lays an instrument on, as instruments::read_order() takes it.
  void add(const Bench& bench, const std::string& order);
  /// Whether the next press on a terminal puts a tip there.
  bool is_placing() const { return open_ && placing_.has_value(); }
  void put_tip(const Bench& bench, const Terminal& terminal);
  /// Where tips are, in their order.
  const std::vector<Terminal>& tips() const { return tips_; }
  void follow(const Bench& bench);
  /// It waits for what an instrument reads.
  bool is_busy() const { return meters_.is_busy(); }
  /// `room`: what it may lie over, at whose upper left it does.
  void show(Bench& bench, const sf::FloatRect& room);

 private:
  void show_choice();
  void show_one(std::size_t k, const Meters::Told& told);

  Meters meters_;
  std::vector<instruments::Order> orders_;
  std::optional<std::string> placing_;  ///< what is to be measured between the tips
  std::vector<Terminal> tips_;
  std::string mistake_;
  SimTime asked_at_ = -1;
  Meters::Log asked_log_;
  std::size_t asked_orders_ = 0;
  bool open_ = false;
};

}  // namespace sixty::gui
