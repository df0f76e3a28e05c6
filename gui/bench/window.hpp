#pragma once

#include <SFML/Graphics/RenderWindow.hpp>
#include <SFML/System/Clock.hpp>
#include <SFML/Window/Cursor.hpp>
#include <array>
#include <future>
#include <memory>
#include <optional>
#include <utility>
#include <vector>

#include "gui/bench/bar.hpp"
#include "gui/bench/desk.hpp"
#include "gui/bench/form_panel.hpp"
#include "gui/bench/idle.hpp"
#include "gui/bench/layout.hpp"
#include "gui/bench/open_panel.hpp"
#include "gui/bench/options.hpp"
#include "gui/bench/panel_layer.hpp"
#include "gui/bench/sight.hpp"
#include "gui/bench/start_panel.hpp"
#include "gui/lesson/lesson_panel.hpp"
#include "gui/paint/press.hpp"
#include "gui/sound/sound.hpp"
#include "gui/tour/walk.hpp"

namespace sixty::gui {

/// The bench's window: the stage, a bar above it, the strip of time below it, and a card for the
/// part that is selected.
class Window {
 public:
  /// `opening` outlives open().
  Window(const Options& options, const Opening& opening, const Registry& registry);
  /// Until it is closed, or has done what the command line asked for. Returns the exit code.
  int run();
  /// Opens it. Errors: throws std::runtime_error where it cannot be.
  void open();
  /// Takes what has been done to it, and shows itself once. Returns whether it is still open.
  /// Order: open() first.
  bool step();
  /// As where nothing was asked for: it runs, and a newcomer is greeted. Order: open() first.
  void begin();
  bool greets() const { return greets_; }
  /// Takes a scene or a moment on the bench in place of what is there. Errors: false; what is wrong
  /// stands in the panel of files, and what is there stays.
  bool take(const std::string& path);
  /// Order: open() first, as for what follows.
  Bench& bench() { return desk_->bench; }
  const Strip& strip() const { return desk_->strip; }
  const Sight& sight() const { return sight_; }
  /// What the drawing has for itself, with a plot below it.
  sf::FloatRect canvas() const;
  /// The same without the plot.
  sf::FloatRect drawing() const;
  std::vector<sf::FloatRect> boxes_asked_about() const;
  bool shows_keys() const { return keys_page_; }
  bool shows_settings() const { return settings_open_; }
  const Settings& settings() const { return settings_; }
  /// What was done last, as it is told below the drawing.
  const std::string& message() const { return message_; }
  /// What was wrong with the file that was tried last, while that is told.
  const std::vector<Diagnostic>& told_of_file() const { return open_panel_.told(); }
  const Asker::Told& told() const { return desk_->why.told(); }
  const HuntPanel& hunt() const { return desk_->hunt; }
  /// Takes a lesson, on the scene that it is of. Errors: false; why stands in its panel.
  bool begin_lesson(const std::string& path, std::size_t first = 0);
  const LessonPanel& lesson() const { return lesson_; }
  /// How often it has been drawn.
  std::uint64_t frames() const { return frames_; }
  /// The tour that is walked; nullptr: none.
  const Walk* walk() const { return walk_.get(); }

 private:
  void handle(const sf::Event& event);
  void press(const sf::Event::KeyEvent& key);
  /// Each returns whether the key is one of its own.
  bool press_of_time(const sf::Event::KeyEvent& key);
  bool press_of_look(const sf::Event::KeyEvent& key);
  bool press_of_panels(const sf::Event::KeyEvent& key);
  /// Files or the form are open: letters are meant for them.
  bool is_filling_in() const { return files_ || form_ || settings_open_; }
  /// It is meant for the fields of what is open.
  bool is_for_fields(const sf::Event::KeyEvent& key) const;
  /// What lies over the drawing, the last first. Returns whether there was anything.
  bool close_topmost();
  void button_down(Pixel at);
  void other_button_down(Pixel at);
  void button_up(Pixel at);
  void pointer_moved(Pixel to);
  void hover();
  void wheel(Pixel at, float steps);
  void let_go();
  void select(std::optional<PartId> part);
  std::optional<PartId> part_under(Pixel at) const;
  void toggle_theme();
  void show_cursor();
  void fold();
  void make_room_for_meters();
  void show_meters();
  bool meters_are_beside() const;
  sf::FloatRect card_box() const;
  void set_twin(bool on);
  /// Beside the panel at the left; where there is no room for both, it lies over the drawing.
  sf::FloatRect beside_side_panel(sf::FloatRect room) const;
  sf::FloatRect side_box() const;
  void open_hunt();
  void close_hunt();
  void toggle_hunt();
  void notice(PartId part);
  void show_hunt();
  void obey_practice(const PracticePage::Wish& wish);
  void open_lessons();
  void close_lessons();
  void toggle_lessons();
  void show_lesson();
  void paint_lesson(Painter& painter) const;
  void paint_marks(const Drawn& drawn, Painter& painter) const;
  void travel(View view);
  void obey(const Wishes& wishes);
  void frame(float frame_s);
  void paint();
  void show_title();
  void show_keys();
  void show_settings_panel();
  void obey_settings();
  void show_captions();
  void show_messages() const;
  void show_head_of_strip();
  void show_start_panel();
  void begin_with(Beginning beginning);
  void show_files();
  /// What the panel told when it was open before is forgotten.
  void show_files_panel(bool shows);
  void show_files_in(sf::FloatRect box);
  void keep_moment(const std::string& path);
  void keep_sheet(const OwnSheet& sheet);
  void read_settings_file();
  /// Errors: false; why is in the message.
  bool keep_settings();
  void keep_picture();
  void keep_lanes(const std::string& kind);
  std::string file_name(const std::string& ending) const;
  int write_screenshot();
  int write_film();
  float words_left() const;
  void begin_walk(std::shared_ptr<const Tour> tour, Guide::Way way, std::size_t first);
  void begin_walk_beside(Guide::Way way);
  void end_walk();
  void follow_walk(float frame_s);
  void look_at_step();
  void paint_over(Painter& painter) const;
  void show_panels();
  sf::FloatRect bare_canvas() const;
  /// Nothing is shown but the drawing and what is said below it.
  bool is_bare() const { return film_ || (walk_ != nullptr && walk_->shows()); }
  int measure_frames();
  /// Whether what is shown is about to change by itself.
  bool is_stirring() const {
    return walk_ != nullptr || sight_.travels() || panels_->takes_keys() || desk_->goes_on();
  }
  Pixel size() const { return layout_.size(); }
  /// With that many pixels of the window to one of the drawing.
  void set_scale(float scale);
  void rescale(float scale);
  /// The layout follows the window.
  void fit();
  bool has_side() const;
  bool has_card() const { return greets_ || desk_->bench.look().selected; }
  const Theme& theme() const { return light_ ? light_theme() : dark_theme(); }

  /// A handle that is held.
  struct Held {
    PartId part = 0;
    std::string release;
  };
  enum class Grip : std::uint8_t { kNone, kCanvas, kStrip, kHandle, kEdge };

  sf::Clock since_loaded_;  // first: what the others take counts
  const Options& options_;
  const Registry& registry_;
  std::shared_ptr<const Tour> tour_;
  SimTime film_from_ = 0, film_to_ = 0;
  FaultBook faults_;
  std::future<std::unique_ptr<Desk>>
      making_;  ///< beside what follows: half of the way to a picture
  Letters letters_;
  sf::Cursor arrow_, up_down_, left_right_;
  sf::RenderWindow window_;
  Press press_;
  std::unique_ptr<PanelLayer> panels_;
  Settings settings_;
  std::string scene_;             ///< its file
  std::vector<std::string> set_;  ///< values of it that are others
  std::unique_ptr<Desk> desk_;    ///< from open() on
  std::shared_ptr<Sound> sound_;  ///< none: nobody is there to hear it
  OpenPanel open_panel_;
  std::optional<FormPanel> form_panel_;
  Bar bar_;
  Sight sight_;
  Layout layout_;
  float scale_ = 1;
  bool keeps_ = false;  ///< settings, as soon as they are others
  bool greets_ = false, light_ = false, moved_ = false, keys_page_ = false, settings_open_ = false,
       files_ = false, form_ = false;
  Grip grip_ = Grip::kNone;
  std::optional<Held> held_;
  Layout::Edge edge_{};  ///< that is dragged
  std::optional<Layout::Edge> cursor_edge_;
  Pixel pointer_{-1, -1}, pressed_at_;
  std::string title_;
  std::string export_;   ///< as what the lanes are to be kept once the frame stands; empty: not
  std::string message_;  ///< about what was done last
  std::unique_ptr<Walk> walk_;
  LessonPanel lesson_;
  bool was_bare_ = false;  ///< in the last frame
  /// The same of the instruments: whether they were there, and in the card's column.
  std::pair<bool, bool> had_meters_;
  bool film_ = false;         ///< one is being made
  std::string film_caption_;  ///< of the picture that is made
  sf::Clock clock_;
  Idle idle_;
  double build_ms_ = 0;
  std::array<Mesh, 3> meshes_;  ///< of the frame before, for their memory
  std::size_t vertices_ = 0;
  std::uint64_t frames_ = 0;
};

}  // namespace sixty::gui
