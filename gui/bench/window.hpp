#pragma once

#include <SFML/Graphics/RenderWindow.hpp>
#include <memory>
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
  enum class View : std::uint8_t { kBuilding, kCase, kPart };
  void handle(const sf::Event& event);
  void press(sf::Keyboard::Key key);
  void pointer_moved(Pixel to);
  void clicked(Pixel at);
  void zoom_at(Pixel at, float steps);
  void travel(View view);
  Camera camera_of(View view) const;
  void move_camera(float frame_s);
  void frame(float frame_s);
  void paint();
  void show_bar();
  void show_card();
  void show_readings(const Declaration& declared);
  void show_commands(const Declaration& declared);
  void show_faults(const PartInstance& part);
  void change_speed(int steps);
  void toggle_running();
  void put_fault(const std::shared_ptr<const Fault>& fault, double severity, bool clears);
  bool save_picture(const std::string& path);
  int write_screenshot();
  int measure_frames();
  Pixel size() const;
  const Theme& theme() const { return light_ ? light_theme() : dark_theme(); }

  const Options& options_;
  const Registry& registry_;
  std::shared_ptr<const Installation> installation_;
  Letters letters_;
  sf::RenderWindow window_;
  std::unique_ptr<PanelLayer> panels_;
  Runner runner_;
  Runner::Seen seen_;
  std::vector<double> arguments_;  ///< of the selected part's commands
  std::vector<std::shared_ptr<const Fault>> faults_;
  std::vector<double> severities_;
  std::vector<bool> faults_in_;
  Camera camera_, aim_;
  View view_ = View::kCase;
  Look look_;
  PartId selected_ = 0;
  std::size_t speed_ = 0;  ///< place in the list of speeds
  bool light_ = false, dragging_ = false, moved_ = false;
  Pixel pointer_{-1, -1}, pressed_at_;
  double build_ms_ = 0;
  std::size_t vertices_ = 0;
};

}  // namespace sixty::gui
