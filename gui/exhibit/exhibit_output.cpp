// What an exhibit's window is asked for by the command line instead of running: a picture, or how
// long its frames take.
#include <fmt/format.h>

#include <algorithm>

#include "gui/bench/picture_file.hpp"
#include "gui/exhibit/exhibit_window.hpp"

namespace sixty::gui {
namespace {

constexpr int kBadPiece = 2, kFullDisk = 4;
constexpr int kMostWaits = 4000;  // frames

}  // namespace

bool ExhibitWindow::go_to_piece(const std::string& name) {
  const exhibit::Exhibit& of = *opened_.exhibit;
  for (std::size_t thing = 0; thing < of.things.size(); ++thing) {
    for (std::size_t round = 0; round < of.things[thing].cases.size(); ++round) {
      attendant_.choose(thing);
      if (attendant_.take().name == name) return true;
      const std::vector<exhibit::Take>& hands = attendant_.hands();
      for (std::size_t hand = 0; hand < hands.size(); ++hand) {
        attendant_.press(hand);
        if (attendant_.take().name == name) return true;
      }
    }
  }
  attendant_.go_home();
  for (std::size_t step = 0; step < of.story.size(); ++step) {
    if (attendant_.take().name == name) return true;
    attendant_.go_on();
  }
  return false;
}

/// As it is at the end of a piece.
int ExhibitWindow::write_picture() {
  sight_.glide(false);
  if (!options_.piece.empty() && !go_to_piece(options_.piece)) {
    fmt::print(stderr, "sixtybeats-bench: --piece: the exhibit has no piece \"{}\"\n",
               options_.piece);
    return kBadPiece;
  }
  for (int k = 0; k < kMostWaits; ++k) {
    step();
    const bool right = house_.is_right() && playing_.is_rehearsed();
    if (right && (attendant_.has_answered() || is_live())) break;
  }
  frame(0);
  std::string error;
  const bool kept = save_picture(window_, options_.screenshot, error);
  if (!kept) fmt::print(stderr, "{}\n", error);
  return kept ? 0 : kFullDisk;
}

int ExhibitWindow::measure_frames() {
  std::vector<double> took_ms;
  for (int k = 0; k < options_.measure_frames && window_.isOpen(); ++k) {
    // As if somebody were there all the time.
    if (k % 100 == 0)
      attendant_.choose(static_cast<std::size_t>(k / 100) % opened_.exhibit->things.size());
    const sf::Clock clock;
    step();
    took_ms.push_back(clock.getElapsedTime().asSeconds() * 1e3);
  }
  std::sort(took_ms.begin(), took_ms.end());
  if (took_ms.empty()) return 0;
  const auto at = [&](double share) {
    return took_ms[static_cast<std::size_t>(share * static_cast<double>(took_ms.size() - 1))];
  };
  fmt::print(
      "{} frames: half of them within {:.1f} ms, 99 % within {:.1f} ms, the slowest {:.1f} ms\n",
      took_ms.size(), at(0.5), at(0.99), took_ms.back());
  return 0;
}

}  // namespace sixty::gui
