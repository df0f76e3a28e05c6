#include "gui/keep/line_merge.hpp"

#include <algorithm>
#include <cstdint>

namespace sixty::gui {
namespace {

using Lines = std::vector<std::string>;

constexpr std::size_t kMostCells = 64'000'000;
constexpr std::size_t kNowhere = SIZE_MAX;

/// For each line of `a` the line of `b` that it is in the longest sequence common to both.
std::optional<std::vector<std::size_t>> matches(const Lines& a, const Lines& b) {
  std::vector<std::size_t> match(a.size(), kNowhere);
  std::size_t head = 0;
  while (head < std::min(a.size(), b.size()) && a[head] == b[head]) {
    match[head] = head;
    ++head;
  }
  std::size_t tail = 0;
  while (tail < std::min(a.size(), b.size()) - head &&
         a[a.size() - 1 - tail] == b[b.size() - 1 - tail]) {
    match[a.size() - 1 - tail] = b.size() - 1 - tail;
    ++tail;
  }
  const std::size_t n = a.size() - head - tail, m = b.size() - head - tail;
  if ((n + 1) * (m + 1) > kMostCells) return std::nullopt;
  // Length of the longest common sequence of what begins at (i, j).
  std::vector<std::uint32_t> length((n + 1) * (m + 1), 0);
  const auto at = [&](std::size_t i, std::size_t j) -> std::uint32_t& {
    return length[i * (m + 1) + j];
  };
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t j = m; j-- > 0;) {
      at(i, j) =
          a[head + i] == b[head + j] ? at(i + 1, j + 1) + 1 : std::max(at(i + 1, j), at(i, j + 1));
    }
  }
  for (std::size_t i = 0, j = 0; i < n && j < m;) {
    if (a[head + i] == b[head + j]) {
      match[head + i++] = head + j++;
    } else {
      ++(at(i + 1, j) >= at(i, j + 1) ? i : j);
    }
  }
  return match;
}

/// Lines from `begin` up to `end`.
struct Piece {
  const Lines& lines;
  std::size_t begin, end;

  bool operator==(const Piece& other) const {
    return std::equal(lines.begin() + static_cast<std::ptrdiff_t>(begin),
                      lines.begin() + static_cast<std::ptrdiff_t>(end),
                      other.lines.begin() + static_cast<std::ptrdiff_t>(other.begin),
                      other.lines.begin() + static_cast<std::ptrdiff_t>(other.end));
  }
  void append_to(Lines& out) const {
    for (std::size_t k = begin; k < end; ++k) out.push_back(lines[k]);
  }
  std::size_t size() const { return end - begin; }
  Piece first(std::size_t count) const { return {lines, begin, begin + count}; }
  Piece last(std::size_t count) const { return {lines, end - count, end}; }
};

/// What a line has behind another: a comment. Errors: nothing if it has anything else.
std::optional<std::string> comment_behind(const std::string& line, const std::string& base) {
  if (line.compare(0, base.size(), base) != 0) return std::nullopt;
  const std::string rest = line.substr(base.size());
  const std::size_t mark = rest.find_first_not_of(' ');
  const bool comment = rest.empty() || (mark != std::string::npos && mark > 0 && rest[mark] == '#');
  return comment ? std::optional(rest) : std::nullopt;
}

/// Both changes of one piece, where they do not touch. Errors: false.
bool put_together(const Piece& was, const Piece& our, const Piece& their, Lines& out) {
  if (our == was || our == their) {
    their.append_to(out);
  } else if (their == was) {
    our.append_to(out);
  } else if (our.size() > was.size() && our.first(was.size()) == was) {
    their.append_to(out);
    our.last(our.size() - was.size()).append_to(out);
  } else if (our.size() > was.size() && our.last(was.size()) == was) {
    our.first(our.size() - was.size()).append_to(out);
    their.append_to(out);
  } else {
    if (our.size() != was.size() || their.size() != was.size()) return false;
    Lines lines;
    for (std::size_t k = 0; k < was.size(); ++k) {
      const auto comment = comment_behind(our.lines[our.begin + k], was.lines[was.begin + k]);
      if (!comment) return false;
      lines.push_back(their.lines[their.begin + k] + *comment);
    }
    out.insert(out.end(), lines.begin(), lines.end());
  }
  return true;
}

std::string joined(const Lines& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

}  // namespace

Lines lines_of(const std::string& text) {
  Lines lines;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    lines.push_back(text.substr(at, end - at));
    at = end + 1;
  }
  return lines;
}

std::optional<Merged> merge_lines(const std::string& base_text, const std::string& our_text,
                                  const std::string& their_text) {
  const Lines base = lines_of(base_text), ours = lines_of(our_text), theirs = lines_of(their_text);
  const auto in_ours = matches(base, ours), in_theirs = matches(base, theirs);
  if (!in_ours || !in_theirs) return std::nullopt;
  Lines out;
  Merged merged;
  for (std::size_t b = 0, o = 0, t = 0; b < base.size() || o < ours.size() || t < theirs.size();) {
    std::size_t next = b;
    while (next < base.size() && ((*in_ours)[next] == kNowhere || (*in_theirs)[next] == kNowhere))
      ++next;
    const bool at_end = next == base.size();
    const Piece was{base, b, next};
    const Piece our{ours, o, at_end ? ours.size() : (*in_ours)[next]};
    const Piece their{theirs, t, at_end ? theirs.size() : (*in_theirs)[next]};
    if (!put_together(was, our, their, out)) {
      our.append_to(out);
      if (merged.conflict_line == 0) merged.conflict_line = static_cast<int>(our.begin) + 1;
    }
    b = next;
    o = our.end;
    t = their.end;
    if (at_end) break;
    out.push_back(base[b++]);
    ++o;
    ++t;
  }
  merged.text = joined(out);
  return merged;
}

}  // namespace sixty::gui
