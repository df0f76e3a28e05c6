#pragma once

#include <string>

#include "gui/bench/bench.hpp"
#include "gui/bench/panel.hpp"

namespace sixty::gui {

/// The bar above the drawing: scene, time, run, speed, distance.
class Bar {
 public:
  Wishes show(Bench& bench, const sf::FloatRect& box, bool light);
  /// The field for a time to go to gets the keys.
  void ask_for_time() { asks_ = true; }

 private:
  void show_time(Bench& bench);
  void show_run(Bench& bench);
  void show_speed(Bench& bench);
  void go_to(Bench& bench);

  std::string wanted_;   ///< the time to go to, as written
  std::string mistake_;  ///< in it
  bool asks_ = false;
};

}  // namespace sixty::gui
