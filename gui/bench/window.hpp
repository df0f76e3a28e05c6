#pragma once

#include <SFML/Graphics/RenderWindow.hpp>
#include <map>
#include <memory>
#include <optional>
#include <vector>

#include "gui/bench/options.hpp"
#include "gui/bench/panel_layer.hpp"
#include "gui/bench/runner.hpp"
#include "sim/scene/fault.hpp"

namespace sixty::gui {

/// The bench's window: the stage, a bar above it, and a card for the part that is selected.
class Window {
 public:
  Window(const Options& options, const Opening& opening, const Registry& registry);
  /// Until it is closed, or has done what the command line asked for. Returns the exit code.
  int run();

 private:
  static constexpr float kBar = 44;  ///< height of the bar
  /// What the card of a part keeps of what was chosen there.
  struct Card {
    struct Choice {
      std::shared_ptr<const Fault> fault;
      double severity = 0;
      bool put_in = false;
    };
    std::vector<double> arguments;  ///< of its commands
    std::vector<Choice> faults;     ///< that it can have
  };
  void handle(const sf::Event& event);
  void press(sf::Keyboard::Key key);
  void pointer_moved(Pixel to);
  void clicked(Pixel at);
  void select(std::optional<PartId> part);
  void toggle_theme();
  void zoom_at(Pixel at, float steps);
  void travel(View view);
  Camera camera_of(View view) const;
  void move_camera(float frame_s);
  void frame(float frame_s);
  void paint();
  void show_bar();
  void show_card(PartId id);
  void show_heading(const char* text);
  void show_readings(PartId id);
  void show_commands(PartId id);
  void show_faults(PartId id);
  void change_speed(int steps);
  void toggle_running();
  void put_fault(PartId id, const Card::Choice& choice);
  bool save_picture(const std::string& path);
  int write_screenshot();
  int measure_frames();
  Pixel size() const;
  float card_width() const;
  const Theme& theme() const { return light_ ? light_theme() : dark_theme(); }

  const Options& options_;
  std::shared_ptr<const Installation> installation_;
  Letters letters_;
  sf::RenderWindow window_;
  std::unique_ptr<PanelLayer> panels_;
  Runner runner_;
  Runner::Seen seen_;
  FaultBook faults_;
  std::map<PartId, Card> cards_;  ///< of parts that have been selected
  Camera camera_, aim_;
  View view_;
  Look look_;
  std::size_t speed_ = 0;  ///< place in the list of speeds
  bool light_ = false, dragging_ = false, moved_ = false;
  Pixel pointer_{-1, -1}, pressed_at_;
  double build_ms_ = 0;
  std::size_t vertices_ = 0;
};

}  // namespace sixty::gui
