#include "gui/keep/form_sum.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace sixty::gui {
namespace {

constexpr int kDeepest = 20;

bool is_name_char(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_' ||
         c == '.';
}

/// Reads one sum from the left to the right. A piece that cannot be read makes all of it unknown.
class SumReader {
 public:
  SumReader(std::string_view text, const SumNames& names) : text_(text), names_(names) {}

  std::optional<double> all() {
    const auto value = sum();
    skip();
    return at_ == text_.size() && value && std::isfinite(*value) ? value : std::nullopt;
  }

 private:
  void skip() {
    while (at_ < text_.size() && text_[at_] == ' ') ++at_;
  }

  bool take(char c) {
    skip();
    if (at_ >= text_.size() || text_[at_] != c) return false;
    ++at_;
    return true;
  }

  std::optional<double> sum() {
    auto value = product();
    while (value) {
      const bool plus = take('+');
      if (!plus && !take('-')) break;
      const auto more = product();
      if (!more) return std::nullopt;
      value = plus ? *value + *more : *value - *more;
    }
    return value;
  }

  std::optional<double> product() {
    auto value = piece();
    while (value) {
      const bool times = take('*');
      if (!times && !take('/')) break;
      const auto more = piece();
      if (!more) return std::nullopt;
      value = times ? *value * *more : *value / *more;
    }
    return value;
  }

  std::optional<double> piece() {
    if (++depth_ > kDeepest) return std::nullopt;
    const auto value = bare_piece();
    --depth_;
    return value;
  }

  std::optional<double> bare_piece() {
    if (take('(')) {
      const auto value = sum();
      return take(')') ? value : std::nullopt;
    }
    skip();
    const std::size_t begin = at_;
    while (at_ < text_.size() && is_name_char(text_[at_])) ++at_;
    const std::string word(text_.substr(begin, at_ - begin));
    if (word.empty()) return std::nullopt;
    if (word[0] >= '0' && word[0] <= '9') return number(word);
    return take('(') ? call(word) : names_.number(word);
  }

  static std::optional<double> number(const std::string& word) {
    double value = 0;
    const auto [end, code] = std::from_chars(word.data(), word.data() + word.size(), value);
    const bool whole = code == std::errc() && end == word.data() + word.size();
    return whole ? std::optional(value) : std::nullopt;
  }

  std::optional<double> call(const std::string& name) {
    if (name == "sum") return call_sum();
    const auto a = sum();
    if (!a || !take(',')) return std::nullopt;
    const auto b = sum();
    if (!b || !take(')')) return std::nullopt;
    if (name == "max") return std::max(*a, *b);
    return name == "min" ? std::optional(std::min(*a, *b)) : std::nullopt;
  }

  /// The text of the sum is worked out anew for each entry.
  std::optional<double> call_sum() {
    const std::size_t comma = std::min(text_.find(',', at_), text_.size());
    const std::string group(text_.substr(at_, comma - at_));
    std::size_t end = std::min(comma + 1, text_.size());
    const std::size_t begin = end;
    for (int open = 1; end < text_.size(); ++end) {
      if (text_[end] == '(') ++open;
      if (text_[end] == ')' && --open == 0) break;
    }
    if (end >= text_.size()) return std::nullopt;
    at_ = end + 1;
    return names_.over(group, text_.substr(begin, end - begin));
  }

  std::string_view text_;
  const SumNames& names_;
  std::size_t at_ = 0;
  int depth_ = 0;
};

}  // namespace

std::optional<double> work_out(std::string_view sum, const SumNames& names) {
  return SumReader(sum, names).all();
}

}  // namespace sixty::gui
