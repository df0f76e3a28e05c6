#pragma once

#include <functional>
#include <string>
#include <vector>

#include "gui/bench/bench.hpp"
#include "gui/bench/panel.hpp"
#include "gui/sound/sound.hpp"

namespace sixty::gui {

/// The bar above the drawing: scene, time, run, speed, distance.
class Bar {
 public:
  /// `sound`: nullptr where there is none.
  Wishes show(Bench& bench, Sound* sound, const sf::FloatRect& box, bool light);
  /// The field for a time to go to gets the keys.
  void ask_for_time() { asks_ = true; }

 private:
  void show_time(Bench& bench);
  void show_run(Bench& bench);
  void show_speed(Bench& bench);
  void go_to(Bench& bench);
  struct Choice {
    const char* text;
    const char* tip;
    bool on;
    std::function<void()> act;
  };
  void add_what_has_no_room(Bench& bench, std::vector<Choice>& all);
  std::vector<Choice> choices(Bench& bench, Sound* sound, bool light, Wishes& wishes);
  static void show_choices(const std::vector<Choice>& choices);
  static void show_sound(Sound& sound);

  std::string wanted_;   ///< the time to go to, as written
  std::string mistake_;  ///< in it
  bool narrow_ = false;  ///< the window is
  bool asks_ = false, again_ = false, opens_sound_ = false;
};

}  // namespace sixty::gui
