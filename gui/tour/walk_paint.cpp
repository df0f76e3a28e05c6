// What a tour puts over the drawing: a veil that leaves out what is lit, and the words below.
#include <algorithm>
#include <cmath>

#include "gui/paint/text_width.hpp"
#include "gui/tour/pace_words.hpp"
#include "gui/tour/veil.hpp"
#include "gui/tour/walk.hpp"
#include "sim/tour/saying.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr float kMargin = 28;        // pixels beside the words
constexpr float kLine = 1.38F;       // em from line to line
constexpr float kSideShare = 0.24F;  // of the width, for time and speed

std::vector<std::string> broken(const std::string& text, float most, float em,
                                const Letters& letters) {
  return broken_lines(text, most,
                      [&](const std::string& line) { return letters.width(line, em, false); });
}

}  // namespace

/// Sizes of letters, by that of the window.
struct Walk::Type {
  float text = 0, head = 0, side = 0, words_width = 0;
};

Walk::Type Walk::type(Pixel size) const {
  const float share = guide_.talks() ? 0.036F : 0.028F;
  Type type;
  type.text = std::clamp(std::round(size.y * share), 14.0F, 64.0F);
  type.head = std::round(type.text * 0.74F);
  type.side = type.head;
  type.words_width = std::max(size.x * (1 - kSideShare) - 2 * kMargin, 60.0F);
  return type;
}

/// The same for all steps, so that the drawing stays where it is.
float Walk::band_height(const Installation& installation, const Letters& letters,
                        Pixel size) const {
  const std::string& language = spoken().code;
  if (band_ && band_->size == size && band_->language == language) return band_->height;
  const Type t = type(size);
  std::size_t most = 1;
  for (const TourStep& one : tour_->steps) {
    const std::string text =
        said(in_language(one.text, language), installation, [](const ReadingOf&) { return -0.88; });
    most = std::max(most, broken(text, t.words_width, t.text, letters).size());
  }
  const float high = t.head * 2.3F + static_cast<float>(most) * kLine * t.text + 0.6F * t.text;
  band_ = {size, language, std::min(high, size.y * 0.5F)};
  return band_->height;
}

sf::FloatRect Walk::canvas(const Installation& installation, const Letters& letters,
                           Pixel size) const {
  const float band = band_height(installation, letters, size);
  return {0, 0, size.x, std::max(size.y - band, 1.0F)};
}

void Walk::paint(const Bench& bench, const Letters& letters, Pixel size, Painter& painter) const {
  const sf::FloatRect room = canvas(bench.installation(), letters, size);
  paint_veil(bench.stage(), step().light, room, painter);
  paint_words(bench, letters, {0, room.height, size.x, size.y - room.height}, painter);
}

std::vector<std::string> Walk::lines(const Bench& bench, const Letters& letters, Pixel size) const {
  const Type t = type(size);
  const auto value = [&](const ReadingOf& lane) {
    const auto it = std::find(tour_->readings.begin(), tour_->readings.end(), lane);
    const std::size_t k = first_reading_ + static_cast<std::size_t>(it - tour_->readings.begin());
    const std::vector<double>& values = bench.picture().lanes;
    return k < values.size() ? values[k] : 0.0;
  };
  return broken(said(in_language(step().text, spoken().code), bench.installation(), value),
                t.words_width, t.text, letters);
}

void Walk::paint_words(const Bench& bench, const Letters& letters, const sf::FloatRect& band,
                       Painter& painter) const {
  using Align = Lettering::Align;
  const Pixel size(band.width, band.top + band.height);
  const Type t = type(size);
  const Theme& theme = painter.theme();
  painter.rectangle({0, band.top}, {band.width, band.height}, theme.panel);
  painter.rectangle({0, band.top}, {band.width, 3}, theme.rule);
  const auto share = static_cast<float>(guide_.share_of_all());
  painter.rectangle({0, band.top}, {band.width * share, 3}, theme.grab);

  float y = band.top + 3 + t.head * 1.25F;
  const float right = band.width - kMargin;
  const auto put = [&](const std::string& text, Pixel at, float em, sf::Color colour, Align align,
                       bool bold) {
    painter.letters({text, at, em, colour, align, bold});
  };
  put(said(in_language(step().head, spoken().code), bench.installation(),
           [](const ReadingOf&) { return 0.0; }),
      {kMargin, y}, t.head, theme.second_text, Align::kLeft, true);
  put(spoken_instant(bench.installation().clock, std::max<SimTime>(bench.picture().at, 0), 2),
      {right, y}, t.side, theme.text, Align::kRight, false);
  y += t.head * 1.05F + t.text * 0.5F;
  put(pace_words(bench.seen()), {right, y}, t.side, theme.second_text, Align::kRight, false);
  for (const std::string& line : lines(bench, letters, size)) {
    put(line, {kMargin, y}, t.text, theme.text, Align::kLeft, false);
    y += kLine * t.text;
  }
  const std::string place = say("{} of {}", guide_.step() + 1, guide_.steps());
  put(guide_.talks() ? place : tr("touch to look around"), {right, size.y - t.side * 1.1F}, t.side,
      theme.second_text, Align::kRight, false);
}

}  // namespace sixty::gui
