#include "gui/paint/text_width.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <sstream>

namespace sixty::gui {
namespace {

using Widths = std::array<short, 95>;

// Advances of the letters from space to tilde in thousandths of the em, read from the font files.
constexpr Widths kPlain = {
    318, 401, 460, 838, 636, 950, 780, 275, 390, 390, 500, 838, 318, 361,  318, 337, 636, 636, 636,
    636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 531, 1000, 684, 686, 698, 770, 632,
    575, 775, 752, 295, 295, 656, 557, 863, 748, 787, 603, 787, 695, 635,  611, 732, 684, 989, 685,
    611, 685, 390, 337, 390, 838, 500, 500, 613, 635, 550, 635, 615, 352,  635, 634, 278, 278, 579,
    278, 974, 634, 612, 635, 635, 411, 521, 392, 634, 592, 818, 592, 592,  525, 636, 337, 636, 838};
constexpr Widths kBold = {348, 456, 521, 838, 696,  1002, 872, 306,  457, 457, 523, 838, 380, 415,
                          380, 365, 696, 696, 696,  696,  696, 696,  696, 696, 696, 696, 400, 400,
                          838, 838, 838, 580, 1000, 774,  762, 734,  830, 683, 683, 821, 837, 372,
                          372, 775, 637, 995, 837,  850,  733, 850,  770, 720, 682, 812, 774, 1103,
                          771, 724, 725, 457, 365,  457,  838, 500,  500, 675, 716, 593, 716, 678,
                          435, 716, 712, 343, 343,  665,  343, 1042, 712, 687, 716, 716, 493, 595,
                          478, 712, 652, 924, 645,  652,  582, 712,  365, 712, 838};
constexpr int kOther = 680;

/// A number's last figure, or the sign between it and its uncertainty: what comes next belongs to
/// it.
bool goes_on(const std::string& word) {
  const std::size_t last = word.find_last_not_of(')');
  if (last == std::string::npos) return false;
  return (word[last] >= '0' && word[last] <= '9') || word == "±";
}

/// The last one, of however many bytes of UTF-8.
void drop_letter(std::string& line) {
  constexpr unsigned kLead = 0xC0, kFollows = 0x80;
  while (!line.empty() && (static_cast<unsigned char>(line.back()) & kLead) == kFollows)
    line.pop_back();
  if (!line.empty()) line.pop_back();
}

/// Words, a number with its unit being one as long as that is not too wide.
std::vector<std::string> words_of(const std::string& text,
                                  const std::function<bool(const std::string&)>& fits) {
  std::vector<std::string> all;
  std::istringstream words(text);
  bool belongs = false;
  for (std::string word; words >> word;) {
    if (belongs && fits(all.back() + " " + word))
      all.back() += " " + word;
    else
      all.push_back(word);
    belongs = goes_on(word);
  }
  return all;
}

}  // namespace

float text_width(std::string_view utf8, float size, bool bold) {
  const Widths& widths = bold ? kBold : kPlain;
  int sum = 0;
  for (const char letter : utf8) {
    const auto code = static_cast<unsigned char>(letter);
    if (code >= 0x80 && code < 0xC0) continue;  // goes on with the letter before
    sum += code >= 32 && code < 127 ? widths[code - 32U] : kOther;
  }
  // Letters are put down in whole sizes.
  const float whole = std::max(std::round(size), 1.0F);
  return static_cast<float>(sum) * whole / 1000;
}

std::vector<std::string> broken_lines(const std::string& text, float widest,
                                      const std::function<float(const std::string&)>& width) {
  std::vector<std::string> lines;
  const auto fits = [&](const std::string& words) { return width(words) <= widest; };
  std::string line;
  for (const std::string& word : words_of(text, fits)) {
    const std::string longer = line.empty() ? word : line + " " + word;
    if (!line.empty() && !fits(longer)) {
      lines.push_back(line);
      line = word;
    } else {
      line = longer;
    }
  }
  if (!line.empty()) lines.push_back(line);
  return lines;
}

std::vector<std::string> fitted_lines(const std::string& name, float widest, float size, bool bold,
                                      std::size_t most) {
  const auto width = [&](const std::string& line) { return text_width(line, size, bold); };
  std::vector<std::string> lines = broken_lines(name, widest, width);
  while (lines.size() > most) {
    const std::string behind = std::move(lines.back());
    lines.pop_back();
    lines.back() += " " + behind;
  }
  for (std::string& line : lines) {
    if (width(line) <= widest) continue;
    while (!line.empty() && width(line) > widest) drop_letter(line);
    line += "…";
  }
  return lines;
}

}  // namespace sixty::gui
