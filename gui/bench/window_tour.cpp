// The window while a tour is walked or a film is made: nothing but the drawing, and words below it.
#include <fmt/format.h>

#include <filesystem>
#include <utility>

#include "gui/bench/picture_file.hpp"
#include "gui/bench/window.hpp"
#include "gui/tour/film.hpp"
#include "sim/base/ending.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kFilmBand = 56;  // pixels below the drawing, for a film's words
constexpr float kFilmEm = 20, kBeside = 24;
constexpr int kFull = 3;  // exit code: what was made could not be kept

}  // namespace

sf::FloatRect Window::bare_canvas() const {
  if (!film_) return walk_->canvas(desk_->bench.installation(), letters_, size());
  const float below = options_.film.captions ? kFilmBand : 0;
  return {0, 0, size().x, std::max(size().y - below, 1.0F)};
}

void Window::begin_walk(std::shared_ptr<const Tour> tour, Guide::Way way, std::size_t first) {
  tour_ = std::move(tour);
  walk_ = std::make_unique<Walk>(tour_, way, first);
}

/// The tour that came with the command line, else the one that is beside the scene.
void Window::begin_walk_beside(Guide::Way way) {
  if (tour_ == nullptr) {
    Diagnostics mistakes;
    const std::filesystem::path scenes = std::filesystem::path(scene_).parent_path();
    tour_ = read_tour((scenes / "tours" / "overview.yaml").string(), desk_->bench.installation(),
                      registry_, mistakes);
    if (tour_ == nullptr) {
      const Diagnostic& first = mistakes.list().front();
      message_ = say("no tour of this scene: {}", first.what);
      return;
    }
  }
  begin_walk(tour_, way, 0);
}

void Window::end_walk() {
  if (walk_ == nullptr) return;
  walk_.reset();
  Runner& runner = desk_->bench.runner();
  runner.set_running(false);
  runner.set_stretch(false);
  runner.set_speed(1);
  // What hands do in the tour is its own.
  runner.begin(desk_->bench.installation().script, desk_->bench.picture().at);
  travel(sight_.view() == View::kPart ? View::kCase : sight_.view());
}

/// Lets it go on, and looks where it wants to be looked.
void Window::follow_walk(float frame_s) {
  if (walk_ == nullptr) {
    desk_->bench.runner().set_lanes(desk_->strip.lanes());
    return;
  }
  desk_->bench.runner().set_lanes(
      walk_->lanes_and_readings(desk_->strip.lanes(), desk_->bench.installation()));
  const bool begins = walk_->follow(desk_->bench, frame_s);
  if (begins) desk_->strip.select(std::nullopt);
  if (std::exchange(was_bare_, is_bare()) != is_bare() || begins) look_at_step();
}

void Window::look_at_step() {
  const TourStep& step = walk_->step();
  sight_.travel(view_of(step.scope), desk_->bench.stage(), step.part, canvas());
}

void Window::paint_over(Painter& painter) const {
  if (walk_ != nullptr && walk_->shows()) walk_->paint(desk_->bench, letters_, size(), painter);
  if (!film_ || !options_.film.captions) return;
  const sf::FloatRect room = canvas();
  painter.rectangle({0, room.height}, {room.width, size().y - room.height}, theme().panel);
  painter.rectangle({0, room.height}, {room.width, 2}, theme().rule);
  const float y = room.height + kFilmBand / 2;
  const std::string now = spoken_instant(desk_->bench.installation().clock,
                                         std::max<SimTime>(desk_->bench.picture().at, 0), 3);
  painter.letters({now, {kBeside, y}, kFilmEm, theme().text, Lettering::Align::kLeft, true});
  painter.letters(
      {film_caption_, {words_left(), y}, kFilmEm, theme().text, Lettering::Align::kLeft, false});
}

/// Behind the time.
float Window::words_left() const {
  return 2 * kBeside + letters_.width(tr("Mon") + std::string(" 00:00:00.000"), kFilmEm, true);
}

int Window::write_film() {
  const FilmOrder& order = options_.film;
  if (const std::string mistake = prepare_film_folder(order.folder); !mistake.empty()) {
    fmt::print(stderr, "{}", mistake);
    return kFull;
  }
  Session session(desk_->bench.shared_installation());
  const std::vector<SimTime> times = order.stretch
                                         ? stretched_film_times(session, film_from_, film_to_)
                                         : film_times(film_from_, film_to_, order.speed);
  const std::vector<FilmDeed> deeds =
      order.captions ? film_deeds(session, film_from_, film_to_) : std::vector<FilmDeed>{};
  const float room = size().x - words_left() - kBeside;
  const auto fits = [&](const std::string& text) {
    return letters_.width(text, kFilmEm, false) <= room;
  };
  film_ = true;
  travel(sight_.view());
  sight_.arrive();
  for (std::size_t k = 0; k < times.size(); ++k) {
    sf::Event event;
    while (window_.pollEvent(event)) {
      if (event.type == sf::Event::Closed) return 0;
    }
    if (is_asked_to_end()) return 0;
    desk_->bench.runner().jump(times[k]);
    desk_->bench.take_all();
    film_caption_ = film_caption(deeds, times, k, fits);
    frame(1.0F / kFilmRate);
    const std::string path = (std::filesystem::path(order.folder) / frame_name(k + 1)).string();
    std::string error;
    if (!save_picture(window_, path, error)) {
      fmt::print(
          stderr,
          "{}\n  mend:     make room on the disk, or choose a folder that may be written to\n",
          error);
      return kFull;
    }
    window_.display();
  }
  return 0;
}

}  // namespace sixty::gui
