// What the window makes for the command line: one picture, or how long its frames take.
#include <fmt/format.h>

#include <SFML/Graphics/Image.hpp>
#include <SFML/Graphics/Texture.hpp>
#include <SFML/System/Clock.hpp>
#include <algorithm>

#include "gui/bench/window.hpp"
#include "sim/base/clock_time.hpp"

namespace sixty::gui {
namespace {

constexpr int kWarmUp = 3;

bool save_picture(const sf::RenderWindow& window, const std::string& path) {
  sf::Texture texture;
  const sf::Vector2u s = window.getSize();
  if (!texture.create(s.x, s.y)) return false;
  texture.update(window);
  sf::Image image = texture.copyToImage();
  for (unsigned y = 0; y < s.y; ++y) {
    for (unsigned x = 0; x < s.x; ++x) {
      sf::Color c = image.getPixel(x, y);
      c.a = 255;
      image.setPixel(x, y, c);
    }
  }
  return image.saveToFile(path);
}

}  // namespace

/// In the folder that the program was started in.
void Window::keep_picture() {
  std::string name = "sixtybeats-" + bench_.installation().name + "-" +
                     format_iso(bench_.installation().clock, bench_.picture().at, 3) + ".png";
  std::replace(name.begin(), name.end(), ':', '-');
  message_ = save_picture(window_, name) ? name : name + ": cannot be written";
}

int Window::write_screenshot() {
  for (int k = 0; k < kWarmUp; ++k) {
    bench_.take_all();
    frame(1);
    strip_.wait();
    if (k + 1 == kWarmUp && !save_picture(window_, options_.screenshot)) {
      fmt::print(stderr,
                 "{}: cannot be written\n  mend:     name a file ending in .png, in a folder that "
                 "may be written to\n",
                 options_.screenshot);
      return 3;
    }
    window_.display();
  }
  return 0;
}

int Window::measure_frames() {
  std::vector<double> whole, build;
  bench_.runner().set_running(true);
  for (int k = 0; k < options_.measure_frames + kWarmUp; ++k) {
    sf::Clock clock;
    sf::Event event;
    while (window_.pollEvent(event)) handle(event);
    frame(1.0F / 60);
    window_.display();
    if (k < kWarmUp) continue;
    whole.push_back(clock.getElapsedTime().asSeconds() * 1e3);
    build.push_back(build_ms_);
  }
  const auto tell = [](const char* what, std::vector<double> ms) {
    std::sort(ms.begin(), ms.end());
    fmt::print("{:<14} median {:6.2f} ms, 95 % within {:6.2f} ms\n", what, ms[ms.size() / 2],
               ms[ms.size() * 95 / 100]);
  };
  tell("frame", whole);
  tell("building it", build);
  fmt::print("{:<14} {}\n", "vertices", vertices_);
  return 0;
}

}  // namespace sixty::gui
