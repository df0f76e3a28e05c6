// What the window makes for the command line: one picture, or how long its frames take.
#include <fmt/format.h>

#include <SFML/Graphics/Image.hpp>
#include <SFML/Graphics/Texture.hpp>
#include <SFML/System/Clock.hpp>
#include <algorithm>

#include "gui/bench/window.hpp"
#include "gui/strip/export.hpp"
#include "sim/base/clock_time.hpp"
#include "sim/base/file.hpp"

namespace sixty::gui {
namespace {

constexpr int kWarmUp = 3;

bool save_picture(const sf::RenderWindow& window, const sf::IntRect& box, const std::string& path) {
  sf::Texture texture;
  const sf::Vector2u s = window.getSize();
  if (!texture.create(s.x, s.y)) return false;
  texture.update(window);
  const sf::Image whole = texture.copyToImage();
  sf::Image image;
  image.create(static_cast<unsigned>(box.width), static_cast<unsigned>(box.height));
  image.copy(whole, 0, 0, box);
  for (unsigned y = 0; y < image.getSize().y; ++y) {
    for (unsigned x = 0; x < image.getSize().x; ++x) {
      sf::Color c = image.getPixel(x, y);
      c.a = 255;
      image.setPixel(x, y, c);
    }
  }
  return image.saveToFile(path);
}

sf::IntRect all_of(const sf::RenderWindow& window) {
  const sf::Vector2u s = window.getSize();
  return {0, 0, static_cast<int>(s.x), static_cast<int>(s.y)};
}

}  // namespace

/// By scene and time, in the folder that the program was started in.
std::string Window::file_name(const std::string& ending) const {
  std::string name = "sixtybeats-" + desk_->bench.installation().name + "-" +
                     format_iso(desk_->bench.installation().clock, desk_->bench.picture().at, 3) +
                     "." + ending;
  std::replace(name.begin(), name.end(), ':', '-');
  return name;
}

void Window::keep_picture() {
  const std::string name = file_name("png");
  message_ = save_picture(window_, all_of(window_), name) ? "kept as " + name
                                                          : name + ": cannot be written";
}

void Window::keep_lanes(const std::string& kind) {
  const std::string name = file_name("lanes." + kind);
  const Strip& strip = desk_->strip;
  const Installation& installation = desk_->bench.installation();
  std::string error = "cannot be written";
  bool kept = false;
  if (kind == "png") {
    const sf::FloatRect box = strip_box();
    kept = save_picture(window_, sf::IntRect(box), name);
  } else {
    const LaneTable table = lane_table(strip);
    kept = write_file_whole(name,
                            kind == "csv" ? csv_of(table, installation, strip.lanes())
                                          : vcd_of(table, installation, strip.lanes()),
                            error);
  }
  message_ = kept ? "kept as " + name : name + ": " + error;
}

int Window::write_screenshot() {
  for (int k = 0; k < kWarmUp; ++k) {
    desk_->bench.take_all();
    if (k == 0 && walk_ != nullptr) walk_->settle(desk_->bench);
    frame(walk_ != nullptr ? 0 : 1);
    if (walk_ != nullptr) {
      look_at_step();
      sight_.arrive();
    }
    desk_->strip.wait();
    if (k + 1 == kWarmUp && !save_picture(window_, all_of(window_), options_.screenshot)) {
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
  desk_->bench.runner().set_running(true);
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
