#include "gui/exhibit/poster.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "gui/paint/text_width.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using Align = Lettering::Align;

constexpr float kLineEm = 1.36F;   // from line to line; this and what follows in em
constexpr float kPadEm = 0.6F;     // from a box's edge to its words
constexpr float kTightEm = 0.25F;  // the same on a button
constexpr float kHeadEm = 1.18F;   // headings
constexpr float kTimeEm = 1.5F;
constexpr float kBetweenEm = 0.5F;  // paragraphs
constexpr float kRound_px = 12;
constexpr std::size_t kMostCaptions = 2;

/// A box with round corners, and a smooth edge.
void put_box(const sf::FloatRect& box, float round, sf::Color colour, Painter& painter) {
  constexpr int kSteps = 6;
  const std::array<Pixel, 4> middles = {
      Pixel(box.left + box.width - round, box.top + round),
      Pixel(box.left + box.width - round, box.top + box.height - round),
      Pixel(box.left + round, box.top + box.height - round),
      Pixel(box.left + round, box.top + round)};
  std::vector<Pixel> outline;
  for (std::size_t corner = 0; corner < middles.size(); ++corner) {
    for (int step = 0; step <= kSteps; ++step) {
      const float angle = (static_cast<float>(corner) - 1 + static_cast<float>(step) / kSteps) *
                          std::numbers::pi_v<float> / 2;
      outline.push_back(middles[corner] + round * Pixel(std::cos(angle), std::sin(angle)));
    }
  }
  make_clockwise(outline);
  painter.mesh().fill(std::span<const Pixel>(outline), [&](Pixel) { return colour; });
  painter.mesh().fade(outline, 0, 1, colour);
}

sf::FloatRect smaller(const sf::FloatRect& box, float by) {
  return {box.left + by, box.top + by, std::max(box.width - 2 * by, 1.0F),
          std::max(box.height - 2 * by, 1.0F)};
}

}  // namespace

void paint_figure(const Figure& figure, const sf::FloatRect& box, Painter& painter) {
  const auto [low, high] = figure.bounds();
  const double wide = std::max(high.x - low.x, 1e-6), tall = std::max(high.y - low.y, 1e-6);
  const Point middle{box.left + box.width / 2, box.top + box.height / 2};
  painter.draw_moved(figure, (low + high) * 0.5, middle,
                     std::min(box.width / wide, box.height / tall));
}

std::vector<std::string> Poster::lines(const Run& run, float width) const {
  return broken_lines(run.text, width, [&](const std::string& line) {
    return letters_.width(line, run.em, run.bold);
  });
}

float Poster::height(const Run& run, float width) const {
  return run.text.empty() ? 0 : kLineEm * run.em * static_cast<float>(lines(run, width).size());
}

/// From the top of the box down. Returns how far it came.
float Poster::put(const Run& run, const sf::FloatRect& box, sf::Color colour,
                  Painter& painter) const {
  if (run.text.empty()) return 0;
  float y = box.top + kLineEm * run.em / 2;
  for (const std::string& line : lines(run, box.width)) {
    painter.letters({line, {box.left, y}, run.em, colour, Align::kLeft, run.bold});
    y += kLineEm * run.em;
  }
  return y - box.top - kLineEm * run.em / 2;
}

void Poster::paint_head(const sf::FloatRect& box, const ScreenWords& words,
                        Painter& painter) const {
  const float em = sizes_.letter;
  const Theme& theme = painter.theme();
  const float middle = box.top + box.height / 2;
  float right = box.left + box.width;
  if (words.dial != nullptr) {
    paint_figure(*words.dial, {right - box.height, box.top, box.height, box.height}, painter);
    right -= box.height + kPadEm * em;
  }
  painter.letters({words.time, {right, middle}, kTimeEm * em, theme.text, Align::kRight, true});
  right -= letters_.width("00:00", kTimeEm * em, true) + kPadEm * em;
  const float room = right - box.left - letters_.width(words.date, em, false) - kPadEm * em;
  const bool has_date = room > letters_.width(words.institution, em, true);
  if (has_date)
    painter.letters({words.date, {right, middle}, em, theme.second_text, Align::kRight, false});
  painter.letters({words.institution, {box.left, middle}, em, theme.text, Align::kLeft, true});
}

void Poster::paint_words(const sf::FloatRect& box, const ScreenWords& words,
                         Painter& painter) const {
  const float em = sizes_.letter;
  const Theme& theme = painter.theme();
  put_box(box, kRound_px, theme.panel, painter);
  sf::FloatRect room = smaller(box, kPadEm * em);
  const Run head{words.head, kHeadEm * em, true}, text{words.text, em, false},
      answer{words.answer, em, false};
  const auto below = [&](float used) {
    room.top += used + kBetweenEm * em;
    room.height -= used + kBetweenEm * em;
  };
  below(put(head, room, theme.text, painter));
  // What was to be seen has been seen: the answer comes first.
  const bool both =
      height(text, room.width) + kBetweenEm * em + height(answer, room.width) <= room.height;
  if (words.answer.empty() || both)
    below(put(text, room, words.answer.empty() ? theme.text : theme.second_text, painter));
  if (!words.answer.empty()) put(answer, room, theme.text, painter);
}

/// Over the drawing: when it is, how fast it goes, and what is heard.
void Poster::paint_notes(const sf::FloatRect& drawing, const ScreenWords& words,
                         Painter& painter) const {
  const float em = sizes_.letter, line = kLineEm * em;
  const Theme& theme = painter.theme();
  const auto note = [&](const std::string& text, Pixel at, Align align) {
    if (text.empty()) return;
    const float wide = letters_.width(text, em, false) + kPadEm * em;
    const float left =
        align == Align::kLeft ? at.x - kPadEm * em / 2 : at.x + kPadEm * em / 2 - wide;
    put_box({left, at.y - line / 2, wide, line}, 6, theme.panel, painter);
    painter.letters({text, at, em, theme.text, align, false});
  };
  const float foot = drawing.top + drawing.height - 0.75F * line;
  note(words.when, {drawing.left + em, foot}, Align::kLeft);
  note(words.pace, {drawing.left + drawing.width - em, foot}, Align::kRight);
  const std::size_t count = std::min(words.captions.size(), kMostCaptions);
  for (std::size_t k = 0; k < count; ++k)
    note(words.captions[words.captions.size() - count + k],
         {drawing.left + em, foot - static_cast<float>(count - k) * 1.15F * line}, Align::kLeft);
  note(words.notice, {drawing.left + em, drawing.top + 0.75F * line}, Align::kLeft);
}

bool Poster::has_room(const ScreenPlan& plan, const ScreenWords& words) const {
  const float em = sizes_.letter;
  const sf::FloatRect room = smaller(plan.words, kPadEm * em);
  const float head = height({words.head, kHeadEm * em, true}, room.width) + kBetweenEm * em;
  const float text = height({words.text, em, false}, room.width);
  const float answer = height({words.answer, em, false}, room.width);
  return head + std::max(text, answer) <= room.height;
}

bool Poster::has_room(const sf::FloatRect& box, const Button& button) const {
  const float em = sizes_.letter, width = box.width - 2 * kTightEm * em;
  const Run run{button.text, em, true};
  const std::vector<std::string> broken = lines(run, width);
  const bool narrow = std::all_of(broken.begin(), broken.end(), [&](const std::string& line) {
    return letters_.width(line, em, true) <= box.width - 0.3F * em;
  });
  return narrow && broken.size() <= 2 &&
         static_cast<float>(broken.size()) * 1.15F * em <= box.height;
}

void Poster::paint_button(const sf::FloatRect& box, const Button& button, Of of,
                          Painter& painter) const {
  constexpr float kEdge_px = 3, kEdgeOn_px = 6, kLineTight = 1.15F;
  const float em = sizes_.letter;
  const Theme& theme = painter.theme();
  put_box(box, kRound_px, button.focused ? theme.text : accent_, painter);
  put_box(smaller(box, button.on || button.focused ? kEdgeOn_px : kEdge_px), kRound_px - kEdge_px,
          button.on ? theme.panel : theme.raised, painter);
  const Run run{button.text + (button.mark.empty() ? "" : "  " + button.mark), em, true};
  const std::vector<std::string> broken = lines(run, box.width - 2 * kTightEm * em);
  const float high = kLineTight * em * static_cast<float>(broken.size());
  float y = box.top + (box.height - high) / 2 + kLineTight * em / 2;
  if (of == Of::kThing) {
    const float foot = 2 * kLineTight * em + kPadEm * em;
    const float top = box.top + kPadEm * em;
    if (button.icon != nullptr)
      paint_figure(*button.icon,
                   {box.left + kPadEm * em, top, box.width - 2 * kPadEm * em,
                    std::max(box.height - foot - kPadEm * em - 0.2F * em, 1.0F)},
                   painter);
    y = box.top + box.height - foot + (2 * kLineTight * em - high) / 2 + kLineTight * em / 2;
  }
  for (const std::string& line : broken) {
    painter.letters({line, {box.left + box.width / 2, y}, em, theme.text, Align::kMiddle, true});
    y += kLineTight * em;
  }
}

void Poster::paint(const ScreenPlan& plan, const ScreenWords& words, Painter& painter) const {
  paint_head(plan.head, words, painter);
  paint_notes(plan.drawing, words, painter);
  paint_words(plan.words, words, painter);
  const auto buttons = [&](const std::vector<sf::FloatRect>& boxes,
                           const std::vector<Button>& texts, Of of) {
    for (std::size_t k = 0; k < std::min(boxes.size(), texts.size()); ++k)
      paint_button(boxes[k], texts[k], of, painter);
  };
  buttons(plan.hands, words.hands, Of::kHand);
  buttons(plan.things, words.things, Of::kThing);
  buttons(plan.languages, words.languages, Of::kLanguage);
}

void Poster::paint_question(double left_s, Pixel size, Painter& painter) const {
  painter.rectangle({0, 0}, size, with_alpha(sf::Color::Black, 0.6F));
  paint_card(tr("Are you still there?"),
             say("Touch anywhere to stay. Otherwise this begins anew in {} s.",
                 static_cast<int>(std::ceil(left_s))),
             size, painter);
}

void Poster::paint_card(const std::string& head, const std::string& text, Pixel size,
                        Painter& painter) const {
  const float em = sizes_.letter, wide = std::min(size.x - 2 * em, 30 * em);
  const Run first{head, kTimeEm * em, true}, rest{text, em, false};
  const float inner = wide - 4 * kPadEm * em;
  const float high = height(first, inner) + kBetweenEm * em + height(rest, inner) + 4 * kPadEm * em;
  const sf::FloatRect box((size.x - wide) / 2, (size.y - high) / 2, wide, high);
  put_box(box, kRound_px, painter.theme().panel, painter);
  sf::FloatRect room = smaller(box, 2 * kPadEm * em);
  const float used = put(first, room, painter.theme().text, painter) + kBetweenEm * em;
  room.top += used;
  put(rest, room, painter.theme().text, painter);
}

void Poster::paint_page(const sf::FloatRect& box, const std::string& head, const std::string& text,
                        Painter& painter) const {
  const float em = sizes_.letter;
  sf::FloatRect room = box;
  room.top += put({head, kTimeEm * em, true}, room, painter.theme().text, painter);
  std::size_t from = 0;
  while (from < text.size()) {
    const std::size_t end = std::min(text.find('\n', from), text.size());
    room.top +=
        put({text.substr(from, end - from), em, false}, room, painter.theme().text, painter);
    from = end + 1;
  }
}

}  // namespace sixty::gui
