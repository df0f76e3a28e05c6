// The paper before the start: punched, then worn, then mended with stickers.
#include "models/tape/paper.hpp"

#include <fmt/format.h>

#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/base/hash.hpp"
#include "sim/base/math.hpp"
#include "sim/base/weekdays.hpp"
#include "sim/part/record.hpp"

namespace sixty::models {
namespace {

constexpr double kSetAtHumidity = 0.5;
constexpr double kMostTorn_m = 0.03;  // ten rows; who lets it get longer has no program any more

class PaperMaker {
 public:
  explicit PaperMaker(Builder& b)
      : b_(b),
        rows_(static_cast<std::int64_t>(b.number("rows"))),
        columns_(static_cast<std::size_t>(b.number("columns"))),
        sizes_{b.number("pitch"), b.number("hole"), b.number("finger"), b.number("out_of_line")} {}

  Paper make() {
    each_of_records("holes", [&](const Value::Record&, std::size_t column, std::int64_t row) {
      punch(column, row);
    });
    for (const Value& line : b_.value("punched").items) punch_line(line);
    leave_chads();
    serve_sound_holes();
    each_of_records("worn", [&](const Value::Record& record, std::size_t column, std::int64_t row) {
      wear(record, column, row);
    });
    each_of_records("patches", [&](const Value::Record&, std::size_t column, std::int64_t row) {
      cover(paper_, rows_, column, row);
    });
    edge("notches", kNotch);
    edge("torn_sprocket_holes", kTorn);
    return paper_;
  }

  static void cover(Paper& paper, std::int64_t rows, std::size_t column, std::int64_t row) {
    const auto others = static_cast<Columns>(~(1U << column));
    const auto at = static_cast<std::size_t>(row);
    const auto before = static_cast<std::size_t>((row + rows - 1) % rows);
    paper.open[at] = static_cast<Columns>(paper.open[at] & others);
    paper.joined[at] = static_cast<Columns>(paper.joined[at] & others);
    paper.joined[before] = static_cast<Columns>(paper.joined[before] & others);
  }

 private:
  std::size_t wrapped(std::int64_t row) const {
    return static_cast<std::size_t>(floor_mod(row, rows_));
  }

  std::optional<std::int64_t> row_of(const char* param, const Value& entry,
                                     const std::string& time) {
    std::string error;
    const std::optional<int> minute = parse_minute_of_day(time, error);
    if (minute) return *minute % rows_;
    b_.refuse(param, entry, error, "row n is the nth minute of the day");
    return std::nullopt;
  }

  bool on_paper(const char* param, const Value& entry, std::size_t column) {
    if (column >= 1 && column <= columns_) return true;
    b_.refuse(param, entry, fmt::format("column {} is not on this tape", column),
              fmt::format("columns go from 1 to {}", columns_));
    return false;
  }

  template <class Act>
  void each_of_records(const char* param, Act act) {
    for (const auto& record : b_.value(param).records) {
      const Value& named = field_of(record, "column");
      const auto column = static_cast<std::size_t>(named.number);
      const bool there = on_paper(param, named, column);
      for (const Value& time : field_of(record, "at").items) {
        const std::optional<std::int64_t> row = row_of(param, time, time.text);
        if (row && there) act(record, column - 1, *row);
      }
    }
  }

  // Which holes keep theirs is chance: the paper's name tells, and the more there are the more are
  // added to the same ones.
  void leave_chads() {
    std::vector<std::pair<std::size_t, std::size_t>> holes;
    for (std::size_t row = 0; row < punched_.size(); ++row) {
      for (std::size_t column = 0; column < columns_; ++column) {
        if (holds(punched_[row], column)) holes.emplace_back(row, column);
      }
    }
    auto chads = static_cast<std::size_t>(b_.number("chads"));
    for (std::uint64_t turn = hash_text(b_.name()); chads > 0 && !holes.empty(); --chads) {
      turn = mix(turn, 1);
      const auto at = static_cast<std::size_t>(turn % holes.size());
      const auto [row, column] = holes[at];
      punched_[row] = static_cast<Columns>(punched_[row] & ~(1U << column));
      holes.erase(holes.begin() + static_cast<std::ptrdiff_t>(at));
    }
  }

  void punch(std::size_t column, std::int64_t row) {
    Columns& holes = punched_[static_cast<std::size_t>(row)];
    holes = static_cast<Columns>(holes | (1U << column));
  }

  // "08:05 1 3" or "08:05 1-4": a row's time, then the columns that are punched there.
  void punch_line(const Value& entry) {
    const std::string& line = entry.text;
    const std::size_t space = line.find(' ');
    const std::optional<std::int64_t> row = row_of("punched", entry, line.substr(0, space));
    if (!row) return;
    std::size_t at = space;
    std::size_t found = 0;
    while (at < line.size()) {
      const std::size_t begin = line.find_first_not_of(" ,", at);
      if (begin == std::string::npos) break;
      at = std::min(line.find_first_of(" ,", begin), line.size());
      if (!punch_columns(entry, line.substr(begin, at - begin), *row)) return;
      ++found;
    }
    if (found == 0) refuse_line(entry);
  }

  bool punch_columns(const Value& entry, const std::string& word, std::int64_t row) {
    const auto digit = [](char c) { return c >= '0' && c <= '9'; };
    const bool one = word.size() == 1 && digit(word[0]);
    const bool several = word.size() == 3 && digit(word[0]) && word[1] == '-' && digit(word[2]);
    if (!one && !several) {
      refuse_line(entry);
      return false;
    }
    const auto first = static_cast<std::size_t>(word.front() - '0');
    const auto last = static_cast<std::size_t>(word.back() - '0');
    if (!on_paper("punched", entry, first) || !on_paper("punched", entry, last)) return false;
    if (first > last) {
      refuse_line(entry);
      return false;
    }
    for (std::size_t column = first; column <= last; ++column) punch(column - 1, row);
    return true;
  }

  void refuse_line(const Value& entry) {
    b_.refuse("punched", entry, fmt::format("\"{}\" does not tell a row's columns", entry.text),
              "write the time and the columns: \"08:05 1 3\" or \"08:05 1-4\"");
  }

  void serve_sound_holes() {
    const RowsServed served = rows_served(sizes_, {});
    for (std::int64_t row = 0; row < rows_; ++row) {
      const Columns holes = punched_[static_cast<std::size_t>(row)];
      if (holes != 0) serve(holes, row, served);
    }
  }

  void serve(Columns columns, std::int64_t row, const RowsServed& served) {
    for (std::int64_t k = served.first; k <= served.last; ++k) {
      Columns& open = paper_.open[wrapped(row + k)];
      open = static_cast<Columns>(open | columns);
      if (k == served.last) break;
      Columns& joined = paper_.joined[wrapped(row + k)];
      joined = static_cast<Columns>(joined | columns);
    }
  }

  void wear(const Value::Record& record, std::size_t column, std::int64_t row) {
    if (!holds(punched_[static_cast<std::size_t>(row)], column)) {
      b_.refuse("worn", field_of(record, "column"),
                fmt::format("column {} has no hole at {}", column + 1,
                            format_minute_of_day(static_cast<int>(row))),
                "only what is punched wears");
      return;
    }
    const Opening torn{field_of(record, "to_earlier").number, field_of(record, "to_later").number};
    serve(static_cast<Columns>(1U << column), row, rows_served(sizes_, torn));
  }

  void edge(const char* param, Edge what) {
    for (const Value& time : b_.value(param).items) {
      const std::optional<std::int64_t> row = row_of(param, time, time.text);
      if (!row) continue;
      std::uint8_t& at = paper_.edge[static_cast<std::size_t>(*row)];
      at = static_cast<std::uint8_t>(at | what);
    }
  }

  Builder& b_;
  std::int64_t rows_;
  std::size_t columns_;
  Sizes sizes_;
  std::array<Columns, kMostRows> punched_ = {};
  Paper paper_;
};

}  // namespace

RowsServed rows_served(const Sizes& sizes, const Opening& torn) {
  const double play = (sizes.hole_m - sizes.finger_m) / 2;
  const double earlier = (-play - torn.to_earlier_m - sizes.out_of_line_m) / sizes.pitch_m;
  const double later = (play + torn.to_later_m - sizes.out_of_line_m) / sizes.pitch_m;
  return {static_cast<std::int64_t>(std::ceil(earlier)),
          static_cast<std::int64_t>(std::floor(later))};
}

Across across_of(const Builder& b) {
  Across a;
  a.first_m = b.number("first_column");
  a.pitch_m = b.number("column_pitch");
  a.play_m = (b.number("hole") - b.number("finger")) / 2;
  a.growth = b.number("growth_when_damp");
  a.out_of_line_m = b.number("out_of_line_across");
  return a;
}

Columns columns_in_line(const Across& a, double humidity) {
  Columns in_line = 0;
  for (std::size_t i = 0; i < kMostColumns; ++i) {
    const double from_edge_m = a.first_m + static_cast<double>(i) * a.pitch_m;
    const double off_m = a.out_of_line_m - a.growth * (humidity - kSetAtHumidity) * from_edge_m;
    if (std::fabs(off_m) <= a.play_m) in_line = static_cast<Columns>(in_line | (1U << i));
  }
  return in_line;
}

Paper paper_of(Builder& b) { return PaperMaker(b).make(); }

void declare_paper(Declaration& d) {
  const auto column = [] {
    return count_field("column", 1, static_cast<double>(kMostColumns), "finger's number");
  };
  const auto at = [] { return texts_field("at", "times of day, \"08:05\""); };
  d.count("rows", static_cast<double>(kMostRows), 2, static_cast<double>(kMostRows),
          "rows of the loop: 1440 for a day, 720 for half a day");
  d.count("columns", 4, 1, static_cast<double>(kMostColumns), "sensing fingers");
  d.records("holes", {column(), chosen_times_field("at")},
            "holes punched, row n being the nth minute of the day");
  d.texts("punched", "the same row by row: time and columns, \"08:05 1 3\" or \"08:05 1-4\"");
  d.count("chads", 0, 0, static_cast<double>(kMostRows), "holes in which the chad has stayed");
  d.records("worn",
            {column(), at(),
             quantity_field("to_earlier", "m", 0, kMostTorn_m, "torn towards earlier rows", false),
             quantity_field("to_later", "m", 0, kMostTorn_m, "torn towards later rows", false)},
            "holes that have torn along the paper");
  d.records("patches", {column(), at()}, "stickers, each over a row of a column");
  d.texts("notches", "rows with a notch in the edge, which steps a week wheel").standard =
      list_of({"00:00", "12:00"});
  d.texts("torn_sprocket_holes", "rows whose hole for the sprocket no longer holds");
  d.quantity("pitch", "m", 0.003, 1e-3, 0.02, "from row to row");
  d.quantity("hole", "m", 0.0018, 2e-4, 0.02, "hole's diameter");
  d.quantity("finger", "m", 0.0008, 1e-4, 0.02, "length of the finger's tip along the paper");
  d.quantity("out_of_line", "m", 0, -0.01, 0.01, "fingers stand that far towards later rows");
  d.quantity("first_column", "m", 0.008, 1e-3, 0.1,
             "from the paper's edge that leads it to column 1");
  d.quantity("column_pitch", "m", 0.006, 1e-3, 0.05, "from column to column");
  d.quantity("out_of_line_across", "m", 0, -0.005, 0.005,
             "fingers stand that much too far from that edge");
  d.quantity("growth_when_damp", "1", 0.015, 0, 0.1,
             "share of its width by which the paper is wider in air of 100 % than of 0 % humidity",
             "from memory: paper across its machine's direction grows about 1-2 %");
}

}  // namespace sixty::models
