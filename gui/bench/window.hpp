#pragma once

#include <SFML/Graphics/RenderWindow.hpp>
#include <SFML/System/Clock.hpp>
#include <memory>
#include <optional>

#include "gui/bench/bar.hpp"
#include "gui/bench/card.hpp"
#include "gui/bench/options.hpp"
#include "gui/bench/panel_layer.hpp"
#include "gui/bench/sight.hpp"
#include "gui/bench/why_panel.hpp"
#include "gui/strip/strip.hpp"

namespace sixty::gui {

/// The bench's window: the stage, a bar above it, the strip of time below it, and a card for the
/// part that is selected.
class Window {
 public:
  Window(const Options& options, const Opening& opening, const Registry& registry);
  /// Until it is closed, or has done what the command line asked for. Returns the exit code.
  int run();
  /// Opens it. Errors: throws std::runtime_error where it cannot be.
  void open();
  /// Takes what has been done to it, and shows itself once. Returns whether it is still open.
  /// Order: open() first.
  bool step();
  Bench& bench() { return bench_; }
  const Strip& strip() const { return strip_; }
  const Sight& sight() const { return sight_; }
  const Asker::Told& told() const { return why_.told(); }

 private:
  void handle(const sf::Event& event);
  void press(const sf::Event::KeyEvent& key);
  void button_down(Pixel at);
  void other_button_down(Pixel at);
  void button_up(Pixel at);
  void pointer_moved(Pixel to);
  void wheel(Pixel at, float steps);
  void let_go();
  void select(std::optional<PartId> part);
  void toggle_theme();
  void set_twin(bool on);
  void travel(View view);
  void obey(const Wishes& wishes);
  void frame(float frame_s);
  void paint();
  void show_title();
  void show_messages() const;
  void show_head_of_strip();
  void keep_picture();
  int write_screenshot();
  int measure_frames();
  Pixel size() const;
  float strip_height() const;
  sf::FloatRect bar_box() const;
  sf::FloatRect card_box() const;
  sf::FloatRect strip_box() const;
  sf::FloatRect canvas() const;
  const Theme& theme() const { return light_ ? light_theme() : dark_theme(); }

  /// A handle that is held.
  struct Held {
    PartId part = 0;
    std::string release;
  };
  enum class Grip : std::uint8_t { kNone, kCanvas, kStrip, kHandle };

  const Options& options_;
  Letters letters_;
  sf::RenderWindow window_;
  std::unique_ptr<PanelLayer> panels_;
  FaultBook faults_;
  Bench bench_;
  Strip strip_;
  Bar bar_;
  Card card_;
  WhyPanel why_;
  Sight sight_;
  bool light_ = false, folded_ = false, moved_ = false;
  Grip grip_ = Grip::kNone;
  std::optional<Held> held_;
  Pixel pointer_{-1, -1}, pressed_at_;
  std::string title_;
  std::string message_;  ///< about what was done last
  sf::Clock clock_;
  double build_ms_ = 0;
  std::size_t vertices_ = 0;
};

}  // namespace sixty::gui
