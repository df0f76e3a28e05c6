#pragma once

#include <SFML/Graphics/RenderWindow.hpp>
#include <SFML/System/Clock.hpp>
#include <SFML/Window/Event.hpp>
#include <array>
#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "gui/bench/sight.hpp"
#include "gui/exhibit/house_run.hpp"
#include "gui/exhibit/keeper.hpp"
#include "gui/exhibit/playing.hpp"
#include "gui/exhibit/poster.hpp"
#include "gui/exhibit/screen_plan.hpp"
#include "gui/exhibit/staff_page.hpp"
#include "gui/paint/letters.hpp"
#include "gui/paint/press.hpp"
#include "gui/sound/sound.hpp"
#include "sim/exhibit/attendant.hpp"

namespace sixty::gui {

/// How an exhibit is opened.
struct ExhibitOptions {
  unsigned width = 0, height = 0;  ///< of its window; 0: the whole screen
  std::string fonts;               ///< folder; empty: where Debian has them
  std::string screenshot;          ///< file; empty: none
  std::string piece;               ///< that the picture is of; empty: the story's first
  int measure_frames = 0;
  StateEnvironment state;  ///< where it keeps what changes; as it is: nowhere
};

/// An exhibit's screen, for visitors: nothing that they do ends it. The clocks as they stand now
/// go on behind whatever is put on.
class ExhibitWindow {
 public:
  ExhibitWindow(const ExhibitOptions& options, const exhibit::Opened& opened, WorldClock clock);
  /// Until the system asks it to end. Returns the exit code.
  int run();
  /// Errors: throws std::runtime_error where there can be no window.
  void open();
  /// Takes what has been done to it, and shows itself once. Returns whether it is still open.
  /// Order: open() first, as for what follows.
  bool step();
  const exhibit::Attendant& attendant() const { return attendant_; }
  HouseRun& house() { return house_; }
  Playing& playing() { return playing_; }
  const ScreenPlan& plan() const { return plan_; }
  const ScreenWords& words() const { return words_; }
  const StaffPage& staff() const { return staff_; }
  bool is_closed() const { return closed_; }
  bool is_muted() const { return sound_ != nullptr && sound_->muted(); }

 private:
  void handle(const sf::Event& event);
  void press(Pixel at);
  void press_key(const sf::Event::KeyEvent& key);
  bool is_in_corner(Pixel at) const;
  void press_staff(Pixel at);
  void obey(std::size_t target);
  void frame(float frame_s);
  void follow_take();
  void follow_hours();
  void follow_sound();
  void follow_staff(float frame_s);
  void keep();
  bool is_dark() const { return closed_ && !staff_.is_shown(); }
  bool is_out_of_order() const { return keeper_.desk().book().out_of_order; }
  double volume() const;
  std::int64_t now_s() const { return clock_of_world_.unix_ns() / kSecond; }
  void paint_staff(const Poster& poster, Painter& over) const;
  void note_moved();
  void lay_out();
  void gather_words();
  std::vector<Button> hand_buttons();
  const Stage& stage() const;
  const Figure* figure_of(std::optional<PartId> part) const;
  void paint();
  void put(Painter& painter, const sf::FloatRect& box);
  /// Where a piece is: what leads there. Errors: false, there is none of that name.
  bool go_to_piece(const std::string& name);
  int write_picture();
  int measure_frames();
  Pixel size() const;
  const Theme& theme() const { return opened_.exhibit->light ? light_theme() : dark_theme(); }
  sf::Color accent() const;
  bool is_live() const { return attendant_.take().live; }

  const ExhibitOptions& options_;
  exhibit::Opened opened_;
  Letters letters_;
  sf::RenderWindow window_;
  Press press_;
  WorldClock clock_of_world_;
  HouseRun house_;
  Playing playing_;
  exhibit::Attendant attendant_;
  Keeper keeper_;
  StaffPage staff_;
  bool tested_ = false;
  std::optional<double> held_s_;  ///< that the staff's corner is held
  std::shared_ptr<Sound> sound_;
  bool sounds_live_ = false;
  Sight sight_{View::kBuilding};
  ScreenPlan plan_;
  ScreenWords words_;
  std::uint64_t begun_ = 0;  ///< of the attendant's, that is put on
  std::optional<std::size_t> focus_;
  bool closed_ = false;
  std::string notice_;
  double notice_until_s_ = 0, gone_s_ = 0;
  sf::Clock clock_;
  std::array<Mesh, 3> meshes_;
};

}  // namespace sixty::gui
