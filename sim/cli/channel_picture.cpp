#include <fmt/format.h>

#include <algorithm>

#include "sim/base/units.hpp"
#include "sim/cli/answer_view.hpp"
#include "sim/cli/layout.hpp"

namespace sixty::cli {
namespace {

constexpr std::size_t kPictureColumns = 64, kRows = 13;
constexpr std::size_t kLabel = 12;

/// Lowest and highest sample of a column.
struct Span {
  double least = 0, most = 0;
};

std::vector<Span> spans_of(const std::vector<double>& samples) {
  std::vector<Span> spans;
  const std::size_t columns = std::min(kPictureColumns, samples.size());
  for (std::size_t c = 0; c < columns; ++c) {
    const auto begin = samples.begin() + static_cast<std::ptrdiff_t>(c * samples.size() / columns);
    const auto end =
        samples.begin() + static_cast<std::ptrdiff_t>((c + 1) * samples.size() / columns);
    const auto [least, most] = std::minmax_element(begin, end);
    spans.push_back({*least, *most});
  }
  return spans;
}

}  // namespace

std::string channel_picture(const instruments::Channel& channel, SimTime from, SimTime to) {
  const std::vector<Span> spans = spans_of(channel.samples);
  double bottom = 0, top = 0;  // the zero is always shown
  for (const Span& s : spans) {
    bottom = std::min(bottom, s.least);
    top = std::max(top, s.most);
  }
  if (top == bottom) top = bottom + 1;
  const double step = (top - bottom) / (kRows - 1);
  std::string text;
  for (std::size_t row = 0; row < kRows; ++row) {
    const double level = top - step * static_cast<double>(row);
    const bool zero = level < step / 2 && level > -step / 2;
    const bool labelled = zero || row == 0 || row + 1 == kRows;
    std::string line =
        padded(labelled ? format_quantity(zero ? 0 : level, channel.unit) : "", kLabel, true);
    line += zero ? " +" : " |";
    for (const Span& s : spans) {
      const bool met = s.least < level + step / 2 && s.most >= level - step / 2;
      line += met ? '*' : zero ? '-' : ' ';
    }
    line.erase(line.find_last_not_of(' ') + 1);
    text += line + "\n";
  }
  return text + std::string(kLabel + 2, ' ') + "0" +
         padded(format_duration(to - from), spans.size() - 1, true) + "\n";
}

}  // namespace sixty::cli
