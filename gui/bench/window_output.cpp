// What the window makes for the command line: one picture, or how long its frames take.
#include <fmt/format.h>

#include <SFML/System/Clock.hpp>
#include <algorithm>
#include <filesystem>
#include <system_error>

#include "gui/bench/picture_file.hpp"
#include "gui/bench/scale.hpp"
#include "gui/bench/window.hpp"
#include "gui/strip/export.hpp"
#include "sim/base/clock_time.hpp"
#include "sim/base/file.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr int kWarmUp = 3;

/// The name first: it is read even where a small window has no room for the folder.
std::string kept_text(const std::string& path) {
  const std::filesystem::path whole(path);
  return say("kept as {} in {}", whole.filename().string(), whole.parent_path().string());
}

}  // namespace

/// By scene and time, in the folder that the program was started in; with the whole path, so that
/// whoever is told of it finds it.
std::string Window::file_name(const std::string& ending) const {
  std::string name = "sixtybeats-" + desk_->bench.installation().name + "-" +
                     format_iso(desk_->bench.installation().clock, desk_->bench.picture().at, 3) +
                     "." + ending;
  std::replace(name.begin(), name.end(), ':', '-');
  std::error_code none;
  return (std::filesystem::current_path(none) / name).string();
}

void Window::keep_picture() {
  const std::string name = file_name("png");
  std::string error;
  message_ = save_picture(window_, name, error) ? kept_text(name) : error;
}

void Window::keep_lanes(const std::string& kind) {
  const std::string name = file_name("lanes." + kind);
  const Strip& strip = desk_->strip;
  const Installation& installation = desk_->bench.installation();
  std::string error;
  bool kept = false;
  if (kind == "png") {
    kept = save_picture(window_, in_window(layout_.strip(), scale_), name, error);
  } else {
    const LaneTable table = lane_table(strip);
    kept = write_file_whole(name,
                            kind == "csv" ? csv_of(table, installation, strip.lanes())
                                          : vcd_of(table, installation, strip.lanes()),
                            error);
  }
  message_ = kept ? kept_text(name) : error;
}

int Window::write_screenshot() {
  for (int k = 0; k < kWarmUp; ++k) {
    desk_->bench.take_all();
    if (k == 0 && walk_ != nullptr) walk_->settle(desk_->bench);
    if (lesson_.is_open()) lesson_.wait();
    frame(walk_ != nullptr ? 0 : 1);
    if (lesson_.is_open()) sight_.arrive();
    if (walk_ != nullptr) {
      look_at_step();
      sight_.arrive();
    }
    desk_->strip.wait();
    if (!is_bare()) desk_->plot.wait(desk_->bench, sight_.view(), canvas());
    std::string error;
    if (k + 1 == kWarmUp && !save_picture(window_, options_.screenshot, error)) {
      fmt::print(stderr,
                 "{}\n  mend:     name a file ending in .png, in a folder that may be written to\n",
                 error);
      return 3;
    }
    window_.display();
  }
  return 0;
}

int Window::measure_frames() {
  std::vector<double> whole, build, draw, simulate;
  double first_ms = 0;
  desk_->bench.runner().set_running(true);
  for (int k = 0; k < options_.measure_frames + kWarmUp; ++k) {
    sf::Clock clock;
    sf::Event event;
    while (window_.pollEvent(event)) handle(event);
    frame(1.0F / 60);
    window_.display();
    if (k == 0) {
      first_ms = since_loaded_.getElapsedTime().asSeconds() * 1e3;
      desk_->bench.take_all();  // what is measured from now on is not how it gets there
    }
    if (k < kWarmUp) continue;
    whole.push_back(clock.getElapsedTime().asSeconds() * 1e3);
    build.push_back(build_ms_);
    draw.push_back(whole.back() - build_ms_);
    simulate.push_back(desk_->bench.seen().took_ms);
  }
  const auto tell = [](const char* what, std::vector<double> ms) {
    std::sort(ms.begin(), ms.end());
    fmt::print("{:<14} median {:6.2f} ms, 95 % within {:6.2f} ms\n", what, ms[ms.size() / 2],
               ms[ms.size() * 95 / 100]);
  };
  fmt::print("{:<14} {:.0f} ms after loading\n", "first picture", first_ms);
  tell("frame", whole);
  tell("building it", build);
  tell("drawing it", draw);
  tell("simulating", simulate);
  fmt::print("{:<14} {}\n", "vertices", vertices_);
  return 0;
}

}  // namespace sixty::gui
