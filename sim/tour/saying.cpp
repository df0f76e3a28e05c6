#include "sim/tour/saying.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/base/units.hpp"
#include "sim/words/words.hpp"

namespace sixty {
namespace {

constexpr const char* kForm =
    "{part.reading}, {part.reading:1} for one decimal and no unit, a minus before for the other "
    "sign";
constexpr int kMostDecimals = 6;

/// Of a language without a catalogue: most languages of Europe have a comma.
/// Source: Unicode CLDR 41, decimal symbols (from memory).
char decimal_sign_of(const std::string& code) {
  const Language* language = find_language(code);
  return language == nullptr ? ',' : language->decimal_sign;
}

/// What stands between braces.
bool read_piece(const Written& written, std::string inside, const Installation& installation,
                const std::vector<NamedNumber>& numbers, Saying::Piece& piece, Mistakes& mistakes) {
  const auto refuse = [&](const std::string& what) {
    mistakes.add(written.place, {labelled(written, what), "{" + inside + "}", kForm,
                                 "write a part of the scene and one of its readings"});
    return false;
  };
  const std::size_t colon = inside.find(':');
  piece.turned = inside[0] == '-';
  const std::string name = inside.substr(0, colon).substr(piece.turned ? 1 : 0);
  if (colon != std::string::npos) {
    const std::string digits = inside.substr(colon + 1);
    if (digits.size() != 1 || digits[0] < '0' || digits[0] > '0' + kMostDecimals)
      return refuse("these are no decimals");
    piece.decimals = digits[0] - '0';
  }
  const std::size_t number = index_of(numbers, name);
  if (number < numbers.size()) {
    piece.number = number;
    return true;
  }
  const std::size_t dot = name.find('.');
  if (dot == std::string::npos) return refuse("a reading belongs between the braces");
  const auto part = installation.find_id(name.substr(0, dot));
  if (!part) return refuse("there is no such part");
  const auto& readings = installation.parts[*part].kind->declaration.readings;
  const std::size_t k = index_of(readings, name.substr(dot + 1));
  if (k == readings.size()) {
    mistakes.add_unknown(written.place, name.substr(0, dot), "reading", name.substr(dot + 1),
                         names_of(readings));
    return false;
  }
  piece.reading = ReadingOf{*part, k};
  return true;
}

}  // namespace

Saying read_saying(const Written& written, const Installation& installation,
                   const std::vector<NamedNumber>& numbers, Mistakes& mistakes) {
  Saying saying;
  const std::string& text = written.text;
  std::size_t begin = 0;
  while (begin < text.size()) {
    Saying::Piece piece;
    const std::size_t open = text.find('{', begin);
    piece.words = text.substr(begin, open == std::string::npos ? open : open - begin);
    const std::size_t close = open == std::string::npos ? open : text.find('}', open);
    if (open != std::string::npos && close == std::string::npos) {
      mistakes.add(written.place, {labelled(written, "a brace is not closed"), text.substr(open),
                                   kForm, "close it with }"});
      return saying;
    }
    if (open != std::string::npos && !read_piece(written, text.substr(open + 1, close - open - 1),
                                                 installation, numbers, piece, mistakes))
      return saying;
    saying.pieces.push_back(std::move(piece));
    begin = close == std::string::npos ? text.size() : close + 1;
  }
  return saying;
}

std::string quantity_text(double value, const std::string& unit, int decimals,
                          const std::string& language) {
  std::string text;
  if (decimals >= 0) {
    text = fmt::format("{:.{}f}", value, decimals);
    // Next to nothing the other way round is nothing.
    if (text.find_first_not_of("-0.") == std::string::npos && text[0] == '-') text.erase(0, 1);
  } else if (unit.empty() || unit == "1") {
    text = fmt::format("{:.6g}", value);
  } else {
    text = format_quantity(value, unit);
  }
  return with_decimal_sign(std::move(text), decimal_sign_of(language));
}

std::string said(const Saying& saying, const Installation& installation,
                 const std::function<double(const ReadingOf&)>& value,
                 const std::vector<std::pair<double, std::string>>& numbers,
                 const std::string& language) {
  std::string text;
  for (const Saying::Piece& piece : saying.pieces) {
    text += piece.words;
    const double sign = piece.turned ? -1 : 1;
    if (piece.reading)
      text +=
          quantity_text(sign * value(*piece.reading), installation.declaration(*piece.reading).unit,
                        piece.decimals, language);
    if (piece.number)
      text += quantity_text(sign * numbers[*piece.number].first, numbers[*piece.number].second,
                            piece.decimals, language);
  }
  return text;
}

void add_readings(const Sayings& sayings, std::vector<ReadingOf>& readings) {
  for (const auto& [language, saying] : sayings) {
    for (const Saying::Piece& piece : saying.pieces) {
      if (piece.reading &&
          std::find(readings.begin(), readings.end(), *piece.reading) == readings.end())
        readings.push_back(*piece.reading);
    }
  }
}

const Saying& in_language(const Sayings& sayings, const std::string& language) {
  static const Saying kNothing;
  auto it = sayings.find(language);
  if (it == sayings.end()) it = sayings.find("en");
  return it == sayings.end() ? kNothing : it->second;
}

}  // namespace sixty
