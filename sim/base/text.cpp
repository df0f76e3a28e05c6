#include "sim/base/text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace sixty {
namespace {

constexpr std::size_t kLongestName = 64;  // beyond it nothing is suggested

int letter_cost(char a, char b) {
  if (a == b) return 0;
  return lower(a) == lower(b) ? 1 : 2;
}

// Edit distance with neighbours swapped as one step, in half steps so that case can count half.
int name_distance(std::string_view a, std::string_view b) {
  std::vector<int> before(b.size() + 1), above(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) above[j] = static_cast<int>(2 * j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = static_cast<int>(2 * i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      row[j] =
          std::min({above[j] + 2, row[j - 1] + 2, above[j - 1] + letter_cost(a[i - 1], b[j - 1])});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
        row[j] = std::min(row[j], before[j - 2] + 2);
    }
    before.swap(above);
    above.swap(row);
  }
  return above[b.size()];
}

// Length of the well-formed sequence at the head of `text`, 0 if there is none.
std::size_t utf8_length(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned lead = byte(0);
  if (lead < 0x80) return 1;
  if (lead < 0xC2 || lead > 0xF4) return 0;
  const std::size_t length = lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
  if (text.size() < length) return 0;
  unsigned low = 0x80;
  unsigned high = 0xBF;
  if (lead == 0xE0) low = 0xA0;   // shorter forms exist for what lies below
  if (lead == 0xED) high = 0x9F;  // surrogates
  if (lead == 0xF0) low = 0x90;
  if (lead == 0xF4) high = 0x8F;  // above U+10FFFF
  if (byte(1) < low || byte(1) > high) return 0;
  for (std::size_t i = 2; i < length; ++i)
    if ((byte(i) & 0xC0) != 0x80) return 0;
  return length;
}

void append_escaped(std::string& out, char c) {
  constexpr char kHex[] = "0123456789abcdef";
  const auto byte = static_cast<unsigned char>(c);
  if (c == '\n') {
    out += "\\n";
  } else if (c == '\t') {
    out += "\\t";
  } else {
    out += "\\x";
    out += kHex[byte >> 4];
    out += kHex[byte & 15];
  }
}

bool is_control(std::string_view sequence) {
  const auto byte = static_cast<unsigned char>(sequence[0]);
  if (sequence.size() == 1) return byte < 0x20 || byte == 0x7F;
  return sequence.size() == 2 && byte == 0xC2 && static_cast<unsigned char>(sequence[1]) < 0xA0;
}

}  // namespace

std::optional<std::string> nearest_name(std::string_view name,
                                        const std::vector<std::string>& candidates) {
  if (name.empty() || name.size() > kLongestName) return std::nullopt;
  const std::string* best = nullptr;
  // A third of the letters may be wrong, and one more.
  int best_distance = static_cast<int>(2 * name.size() / 3) + 3;
  for (const std::string& candidate : candidates) {
    if (candidate.size() > kLongestName) continue;
    const int distance = name_distance(name, candidate);
    if (distance >= best_distance) continue;
    best_distance = distance;
    best = &candidate;
  }
  if (best == nullptr) return std::nullopt;
  return *best;
}

std::string did_you_mean(std::string_view name, const std::vector<std::string>& candidates) {
  const std::optional<std::string> nearest = nearest_name(name, candidates);
  return nearest ? "did you mean \"" + *nearest + "\"?" : std::string();
}

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && text.front() == ' ') text.remove_prefix(1);
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  return text;
}

std::string trimmed_block(const std::string& text) {
  constexpr const char* kBlank = " \n";
  const std::size_t begin = text.find_first_not_of(kBlank);
  if (begin == std::string::npos) return "";
  return text.substr(begin, text.find_last_not_of(kBlank) - begin + 1);
}

std::string trimmed(const std::string& text) {
  return std::string(trimmed(std::string_view(text)));
}

std::vector<std::string> pieces_of(const std::string& text, char separator) {
  std::vector<std::string> pieces;
  for (std::size_t begin = 0; begin <= text.size();) {
    const std::size_t end = std::min(text.find(separator, begin), text.size());
    pieces.push_back(trimmed(text.substr(begin, end - begin)));
    begin = end + 1;
  }
  return pieces;
}

std::size_t find_invalid_utf8(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t length = utf8_length(text.substr(at));
    if (length == 0) return at;
    at += length;
  }
  return std::string_view::npos;
}

std::string printable(std::string_view text, std::size_t max_bytes) {
  std::string out;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t length = utf8_length(text.substr(at));
    const std::string_view sequence = text.substr(at, std::max<std::size_t>(length, 1));
    if (at + sequence.size() > max_bytes) return out + "...";
    if (length == 0 || is_control(sequence)) {
      for (const char c : sequence) append_escaped(out, c);
    } else {
      out += sequence;
    }
    at += sequence.size();
  }
  return out;
}

std::string in_quotes(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (c == '"' || c == '\\') {
      out += {'\\', c};
    } else if (byte < 0x20 || byte == 0x7F) {
      out += fmt::format("\\x{:02x}", byte);
    } else {
      out += c;
    }
  }
  return out + "\"";
}

std::string words_of_key(std::string_view key, bool capital) {
  std::string words(key);
  std::replace(words.begin(), words.end(), '_', ' ');
  if (capital && !words.empty() && words[0] >= 'a' && words[0] <= 'z') {
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  }
  return words;
}

std::string percent(double share) {
  const long rounded = std::lround(100 * share);
  if (share > 0 && rounded == 0) return "< 1 %";
  return std::to_string(rounded) + " %";
}

std::string grouped(std::int64_t number) {
  const std::string digits = std::to_string(number);
  const std::size_t head = number < 0 ? 1 : 0;
  std::string out;
  for (std::size_t at = 0; at < digits.size(); ++at) {
    if (at > head && (digits.size() - at) % 3 == 0) out += ',';
    out += digits[at];
  }
  return out;
}

std::string counted(std::int64_t number, std::string_view noun) {
  return std::to_string(number) + " " + std::string(noun) + (number == 1 ? "" : "s");
}

std::string times(std::int64_t number) {
  if (number == 0) return "never";
  return number == 1 ? "once" : std::to_string(number) + " times";
}

std::string happened(std::string_view what, std::int64_t number) {
  if (number == 0) return "never " + std::string(what);
  return std::string(what) + " " + times(number);
}

}  // namespace sixty
