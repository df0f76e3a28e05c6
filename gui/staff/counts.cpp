#include "gui/staff/counts.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <filesystem>
#include <system_error>

#include "gui/staff/aside.hpp"
#include "gui/staff/sheet_writer.hpp"
#include "gui/staff/utc.hpp"
#include "sim/base/clock_time.hpp"
#include "sim/base/file.hpp"
#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr const char* kHead = "date,language,action,count";
constexpr std::size_t kMostBytes = 4'000'000;
constexpr std::size_t kMostWord = 40;
constexpr std::int64_t kMostDay = 100'000, kMostCount = 1'000'000'000'000;

/// Classes of the histogram of stays, each from here to the next. Units: s.
constexpr std::array<std::int64_t, 17> kStayFrom = {0,   5,   10,  15,  20,  30,  45,  60,  90,
                                                    120, 180, 240, 300, 420, 600, 900, 1800};
constexpr std::int64_t kStayEnd = 3600;  // of the last class, for interpolation

std::string stay_action(std::int64_t from) { return fmt::format("stay_{}s", from); }

std::string word_or_other(const std::string& word) {
  const auto is_fit = [](char c) {
    return is_digit(c) || (is_letter(c) && lower(c) == c) || c == '_' || c == '-';
  };
  const bool fits =
      !word.empty() && word.size() <= kMostWord && std::all_of(word.begin(), word.end(), is_fit);
  return fits ? word : "other";
}

std::optional<std::int64_t> number_of(const std::string& text) {
  std::int64_t number = 0;
  const char* end = text.data() + text.size();
  const auto [stop, code] = std::from_chars(text.data(), end, number);
  if (code != std::errc() || stop != end || number < 1 || number > kMostCount) return std::nullopt;
  return number;
}

/// One line of the file. Errors: nothing.
std::optional<CountRow> row_of(const std::string& line) {
  const std::vector<std::string> pieces = pieces_of(line, ',');
  if (pieces.size() != 4 || pieces[0].size() != 10) return std::nullopt;
  std::string error;
  const std::optional<CalendarTime> date = parse_calendar_time(pieces[0], error);
  const std::optional<std::int64_t> count = number_of(pieces[3]);
  if (!date || !count || date->day < 0 || date->day > kMostDay) return std::nullopt;
  for (const std::string& word : {pieces[1], pieces[2]}) {
    if (word_or_other(word) != word) return std::nullopt;
  }
  return CountRow{date->day, pieces[1], pieces[2], *count};
}

}  // namespace

Counts::Counts(const std::string& folder, SheetWriter& writer) : folder_(folder), writer_(writer) {}

std::string Counts::path_of(std::int64_t day) const {
  return fmt::format("{}/counts-{}.csv", folder_,
                     date_text(std::clamp<std::int64_t>(day, 0, kMostDay)).substr(0, 7));
}

Counts::Month& Counts::month_of(std::int64_t day) {
  const std::string path = path_of(day);
  const auto known = months_.find(path);
  if (known != months_.end()) return known->second;
  Month& month = months_[path];
  if (!folder_.empty()) read(path, month);
  return month;
}

void Counts::read(const std::string& path, Month& month) {
  std::error_code code;
  if (!std::filesystem::exists(path, code) && !code) return;
  Diagnostics mistakes;
  const std::optional<std::string> text = read_file_bounded(path, kMostBytes, mistakes);
  if (!text) {
    const Diagnostic& first = mistakes.list().front();
    set_file_aside(path, first.what + " (" + first.found + ")", month);
    return;
  }
  std::vector<std::string> lines = pieces_of(*text, '\n');
  if (lines.back().empty()) lines.pop_back();  // behind the last line end
  std::size_t wrong = lines.empty() || lines[0] != kHead ? 1 : 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i] == kHead) continue;
    const std::optional<CountRow> row = row_of(lines[i]);
    if (row && path_of(row->day) == path && month.rows.size() < kMostRows) {
      month.rows[{row->day, row->language, row->action}] += row->count;
    } else if (wrong == 0) {
      wrong = i + 1;
    }
  }
  if (wrong > 0)
    set_file_aside(path, fmt::format("line {} is not as it was written", wrong), month);
}

void Counts::set_file_aside(const std::string& path, const std::string& what, Month& month) {
  std::string error;
  if (set_aside(path, error)) {
    note_ =
        say("The file of counts {} is damaged: {}. It is kept as {}.damaged, and what could be "
            "read of it goes on.",
            printable(path, 500), what, printable(path, 500));
    return;
  }
  month.stays = true;
  note_ =
      say("The file of counts {} is damaged: {}. It is left as it is, and counts are not kept "
          "this month, because {}.",
          printable(path, 500), what, error);
}

void Counts::add(std::int64_t day, const std::string& language, const std::string& action) {
  Month& month = month_of(day);
  const Key key{std::clamp<std::int64_t>(day, 0, kMostDay), word_or_other(language),
                word_or_other(action)};
  const auto known = month.rows.find(key);
  if (known != month.rows.end()) {
    if (known->second < kMostCount) ++known->second;
  } else if (month.rows.size() < kMostRows) {
    month.rows[key] = 1;
  }
  month.changed = true;
}

void Counts::count(std::int64_t day, const std::string& language, const std::string& action) {
  add(day, language, action);
}

void Counts::count_stay(std::int64_t day, const std::string& language, std::int64_t seconds) {
  const auto above =
      std::upper_bound(kStayFrom.begin(), kStayFrom.end(), std::max<std::int64_t>(seconds, 0));
  add(day, language, stay_action(*(above - 1)));
}

void Counts::look(std::int64_t now) {
  const bool is_set_back = now_ && now < *now_;
  now_ = now;
  const bool has_changed = std::any_of(months_.begin(), months_.end(),
                                       [](const auto& entry) { return entry.second.changed; });
  if (!has_changed) return;
  if (!changed_at_) changed_at_ = now;
  if (is_set_back || now - *changed_at_ >= kWriteAfter) keep();
}

void Counts::keep() {
  changed_at_.reset();
  for (auto& [path, month] : months_) {
    if (!month.changed) continue;
    month.changed = false;
    if (folder_.empty() || month.stays) continue;
    std::string text = std::string(kHead) + "\n";
    for (const auto& [key, count] : month.rows) {
      const auto& [day, language, action] = key;
      text += fmt::format("{},{},{},{}\n", date_text(day), language, action, count);
    }
    writer_.write(path, text);
  }
}

std::vector<CountRow> Counts::rows(std::int64_t day) {
  std::vector<CountRow> found;
  for (const auto& [key, count] : month_of(day).rows) {
    const auto& [of, language, action] = key;
    if (of == day) found.push_back({of, language, action, count});
  }
  return found;
}

std::int64_t Counts::total(std::int64_t day, const std::string& action) {
  std::int64_t sum = 0;
  for (const CountRow& row : rows(day)) {
    if (row.action == action) sum += row.count;
  }
  return sum;
}

std::optional<std::int64_t> Counts::median_stay(std::int64_t day) {
  std::array<std::int64_t, kStayFrom.size()> stays = {};
  std::int64_t all = 0;
  for (std::size_t i = 0; i < stays.size(); ++i) {
    stays[i] = total(day, stay_action(kStayFrom[i]));
    all += stays[i];
  }
  if (all == 0) return std::nullopt;
  const double half = static_cast<double>(all) / 2;
  double before = 0;
  std::size_t i = 0;
  while (before + static_cast<double>(stays[i]) < half) before += static_cast<double>(stays[i++]);
  const std::int64_t from = kStayFrom[i];
  const std::int64_t to = i + 1 < kStayFrom.size() ? kStayFrom[i + 1] : kStayEnd;
  const double share = (half - before) / static_cast<double>(stays[i]);
  return from + std::llround(share * static_cast<double>(to - from));
}

}  // namespace sixty::gui
