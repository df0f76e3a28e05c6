#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gui/exhibit/screen_plan.hpp"
#include "gui/paint/letters.hpp"
#include "gui/paint/painter.hpp"

namespace sixty::gui {

/// What stands on something that can be touched.
struct Button {
  std::string text;
  const Figure* icon = nullptr;
  bool on = false;       ///< it is what is shown now
  bool focused = false;  ///< where the keyboard is
  std::string mark;      ///< behind the text: a guess that was right or wrong
};

/// All that an exhibit's screen says at one moment, in the language of who stands there.
struct ScreenWords {
  std::string institution, time, date;
  std::string head, text, answer;
  std::string when, pace;             ///< of what is drawn
  std::vector<std::string> captions;  ///< of what is heard
  std::string notice;                 ///< something that everybody should know; or empty
  std::vector<Button> hands, things, languages;
  const Figure* dial = nullptr;  ///< at the right time
};

/// Puts words and buttons on an exhibit's screen. Order: the letters outlive it.
class Poster {
 public:
  Poster(const Letters& letters, ScreenSizes sizes, sf::Color accent)
      : letters_(letters), sizes_(sizes), accent_(accent) {}

  void paint(const ScreenPlan& plan, const ScreenWords& words, Painter& painter) const;
  /// "Still there?": over all else, in how many seconds it goes.
  void paint_question(double left_s, Pixel size, Painter& painter) const;
  /// Some words in the middle of an empty screen.
  void paint_card(const std::string& head, const std::string& text, Pixel size,
                  Painter& painter) const;
  /// A heading and lines below it, from the top of a box on.
  void paint_page(const sf::FloatRect& box, const std::string& head, const std::string& text,
                  Painter& painter) const;
  void paint_hand(const sf::FloatRect& box, const Button& button, Painter& painter) const {
    paint_button(box, button, Of::kHand, painter);
  }
  /// Whether all words of a piece have room.
  bool has_room(const ScreenPlan& plan, const ScreenWords& words) const;
  /// The same of what stands on buttons.
  bool has_room(const sf::FloatRect& box, const Button& button) const;

 private:
  enum class Of : std::uint8_t { kThing, kHand, kLanguage };
  struct Run {
    std::string text;
    float em = 0;
    bool bold = false;
  };
  std::vector<std::string> lines(const Run& run, float width) const;
  float height(const Run& run, float width) const;
  float put(const Run& run, const sf::FloatRect& box, sf::Color colour, Painter& painter) const;
  void paint_head(const sf::FloatRect& box, const ScreenWords& words, Painter& painter) const;
  void paint_words(const sf::FloatRect& box, const ScreenWords& words, Painter& painter) const;
  void paint_notes(const sf::FloatRect& drawing, const ScreenWords& words, Painter& painter) const;
  void paint_button(const sf::FloatRect& box, const Button& button, Of of, Painter& painter) const;

  const Letters& letters_;
  ScreenSizes sizes_;
  sf::Color accent_;
};

/// A figure, as large as it fits into a box. Units: pixels. Range: the painter's camera has one
/// pixel to a unit.
void paint_figure(const Figure& figure, const sf::FloatRect& box, Painter& painter);

}  // namespace sixty::gui
