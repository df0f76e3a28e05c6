#pragma once

#include "gui/strip/strip.hpp"

namespace sixty::gui {

/// Has a strip show the first minute of its scene, and waits until it is written.
inline void show_first_minute(Strip& strip, const Installation& scene) {
  Course course;
  course.now = course.reach = kMinute;
  course.log = std::make_shared<const std::vector<Action>>(scene.script);
  strip.follow(course, {0, 500, 1000, 240});
  strip.wait();
}

}  // namespace sixty::gui
