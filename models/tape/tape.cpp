#include <fmt/format.h>

#include <array>
#include <cmath>
#include <vector>

#include "sim/base/text.hpp"
#include "sim/base/weekdays.hpp"
#include "sim/part/contact_params.hpp"
#include "sim/part/record.hpp"

namespace sixty::models {
namespace {

constexpr std::size_t kMostColumns = 8;
constexpr double kMostRows = 1440;
constexpr std::int64_t kHalfDayRows = 720;
constexpr double kRowsInTime = 1.0;  // rows that clock and paper may be apart without a slip

enum Command : std::uint16_t { kSetRow, kStopTape, kRunTape };
enum Output : std::size_t { kHalfDay };
enum Own : std::uint16_t { kFingersDrop = 1 };
enum Reading : std::size_t { kRow, kRunning, kSlipped, kHoles };

using Columns = std::uint8_t;  // bit 0: column 1

struct TapeState {
  std::int64_t row = 0;
  std::int64_t stopped = 0;
  Columns down = 0;  ///< fingers that rest on the drum
  std::uint8_t spare[7] = {};
  std::array<std::uint64_t, kMostColumns> draws = {};
};

bool holds(Columns columns, std::size_t i) { return (unsigned{columns} & (1U << i)) != 0; }

std::string terminal_of(std::size_t column) { return "finger_" + std::to_string(column + 1); }

/// Columns of one record; none, once refused, if the tape has no such column.
Columns columns_of(const Value::Record& record, Builder& b) {
  const auto column = static_cast<std::size_t>(field_of(record, "column").number);
  if (column >= 1 && column <= static_cast<std::size_t>(b.number("columns"))) {
    return static_cast<Columns>(1U << (column - 1));
  }
  b.refuse("holes", fmt::format("column {} is not on this tape", column),
           fmt::format("columns go from 1 to {}", b.number("columns")));
  return 0;
}

/// The loop of paper: which columns are punched in each row.
std::vector<Columns> punched(Builder& b) {
  const auto rows = static_cast<std::size_t>(b.number("rows"));
  std::vector<Columns> paper(rows, 0);
  for (const auto& record : b.value("holes").records) {
    const Columns columns = columns_of(record, b);
    for (const std::string& time : field_of(record, "at").texts) {
      std::string error;
      const std::optional<int> minute = parse_minute_of_day(time, error);
      if (!minute) {
        b.refuse("holes", error, "row n is the nth minute of the day");
        continue;
      }
      Columns& row = paper[static_cast<std::size_t>(*minute) % rows];
      row = static_cast<Columns>(row | columns);
    }
  }
  return paper;
}

class Tape final : public Part {
 public:
  explicit Tape(Builder& b)
      : name_(b.name()),
        paper_(punched(b)),
        steps_at_(from_seconds(b.number("steps_at"))),
        finger_drop_(from_seconds(b.number("finger_drop"))),
        finger_speed_(b.number("finger_speed")),
        film_(contact_film(b)),
        state_(b.state<TapeState>()) {
    const auto columns = static_cast<std::size_t>(b.number("columns"));
    for (std::size_t i = 0; i < columns; ++i) {
      circuit::Contact contact;
      contact.a = b.node("drum");
      contact.b = b.node(terminal_of(i));
      contact.closed_ohm = film_.ohm(0.5);
      contact.kind = contact_kind(b);
      fingers_.push_back(b.add(contact));
    }
  }

  void start(Ctx& ctx) const override {
    TapeState& s = ctx.state(state_);
    s = TapeState{};
    s.row = wrapped(std::floor(rows_due(ctx.reader().week_offset())));
    drop(ctx, s);
  }

  void on_event(const Event& event, Ctx& ctx) const override {
    TapeState& s = ctx.state(state_);
    switch (event.kind) {
      case kSignalBase:
        step(ctx, s);
        break;
      case kFingersDrop:
        drop(ctx, s);
        break;
      case kCommandBase + kSetRow:
        s.row = wrapped(event.value);
        lift(ctx, s);
        drop(ctx, s);
        break;
      case kCommandBase + kStopTape:
        s.stopped = 1;
        break;
      case kCommandBase + kRunTape:
        s.stopped = 0;
        break;
      default:
        break;
    }
  }

  double read(std::size_t reading, const Reader& r) const override {
    const TapeState& s = r.state(state_);
    switch (reading) {
      case kRow:
        return static_cast<double>(s.row);
      case kRunning:
        return s.stopped != 0 ? 0 : 1;
      case kSlipped:
        return static_cast<double>(slipped(r));
      default:
        return paper_[static_cast<std::size_t>(s.row)];
    }
  }

  void report(Report& report, const Reader& r) const override {
    const TapeState& s = r.state(state_);
    const std::int64_t behind = slipped(r);
    report.one_of("tape", "tapes", name_, Row().count("row", s.row).count("slipped", behind));
    const std::string row = fmt::format("{}: row {} ({}) under the fingers", name_, s.row,
                                        format_minute_of_day(static_cast<int>(s.row)));
    if (behind == 0) {
      report.say("Tape", row + ", in time.");
      return;
    }
    const std::string sentence = fmt::format("{}, {}.", row, apart_text(behind));
    report.say("Tape", sentence);
    report.warn(sentence);
  }

 private:
  std::int64_t rows() const { return static_cast<std::int64_t>(paper_.size()); }
  std::int64_t wrapped(double row) const {
    const auto loop = static_cast<double>(rows());
    const auto whole = static_cast<std::int64_t>(std::fmod(row, loop));
    return whole < 0 ? whole + rows() : whole;
  }

  // Rows that should have come in since Monday 00:00, with the part of the present one.
  double rows_due(SimTime since_monday) const { return to_seconds(since_monday - steps_at_) / 60; }

  // How many rows the paper is behind true time. Half a minute either way is not the tape's fault.
  std::int64_t slipped(const Reader& r) const {
    const auto loop = static_cast<double>(rows());
    const double middle = static_cast<double>(r.state(state_).row) + 0.5;
    double behind = rows_due(r.week_offset() + r.now()) - middle;
    behind -= loop * std::floor(behind / loop + 0.5);
    return std::fabs(behind) < kRowsInTime ? 0
                                           : static_cast<std::int64_t>(std::floor(behind + 0.5));
  }

  // A loop that is ahead one way round is behind the other way. A tape that stood still for long
  // has not run ahead, so both are told; how a hand sets it right soonest comes first.
  std::string apart_text(std::int64_t behind) const {
    if (behind > 0) return fmt::format("{} {} behind time", behind, row_or_rows(behind));
    return fmt::format("{} {} ahead of time, or {} behind round the loop", -behind,
                       row_or_rows(-behind), rows() + behind);
  }
  static const char* row_or_rows(std::int64_t count) { return count == 1 ? "row" : "rows"; }

  void step(Ctx& ctx, TapeState& s) const {
    const std::array<Condition, 1> conditions = {
        Condition{"tape is let run", s.stopped != 0 ? 0.0 : 1.0, 1, s.stopped == 0}};
    ctx.because(s.stopped == 0, conditions);
    if (s.stopped != 0) return;
    lift(ctx, s);
    s.row = (s.row + 1) % rows();
    if (paper_[static_cast<std::size_t>(s.row)] != 0) {
      ctx.schedule(ctx.now() + finger_drop_, kFingersDrop, Phase::kContact);
    }
    if (s.row % kHalfDayRows == 0) ctx.emit(kHalfDay, s.row == 0 ? 0 : 1);
  }

  // Fingers slide up out of their holes as the paper moves.
  void lift(Ctx& ctx, TapeState& s) const {
    for (std::size_t i = 0; i < fingers_.size(); ++i) {
      if (holds(s.down, i)) ctx.set_contact(fingers_[i], false, 0, 0);
    }
    s.down = 0;
  }

  void drop(Ctx& ctx, TapeState& s) const {
    const Columns holes = paper_[static_cast<std::size_t>(s.row)];
    for (std::size_t i = 0; i < fingers_.size(); ++i) {
      if (!holds(holes, i)) continue;
      const double draw = ctx.draw(static_cast<std::uint32_t>(i), s.draws[i]++);
      ctx.set_contact(fingers_[i], true, film_.ohm(draw), finger_speed_);
    }
    s.down = holes;
  }

  std::string name_;
  std::vector<Columns> paper_;
  SimTime steps_at_;
  SimTime finger_drop_;
  double finger_speed_;
  ContactFilm film_;
  StateSlot<TapeState> state_;
  std::vector<int> fingers_;
};

class TapeType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "program tape";
    d.help = "Loop of paper, one row a minute; a finger over a hole touches the drum.";
    d.count("rows", kMostRows, 2, kMostRows,
            "rows of the loop: 1440 for a day, 720 for half a day");
    d.count("columns", 4, 1, static_cast<double>(kMostColumns), "sensing fingers");
    d.records("holes",
              {count_field("column", 1, static_cast<double>(kMostColumns), "finger's number"),
               texts_field("at", "times of day, \"08:05\"")},
              "holes punched, row n being the nth minute of the day");
    d.quantity("steps_at", "s", 5.0, 0, 59, "second of the minute at which a row comes in");
    d.quantity("finger_drop", "s", 0.005, 1e-3, 0.1, "from the stroke's end of a row to the drum");
    d.quantity("finger_speed", "m/s", 0.05, 1e-3, 2, "speed of the finger at the drum");
    declare_contact(d, {0.2, 0.05, 0.55, false, true});
    d.terminal("drum", "drum under the paper, common to all fingers");
    for (std::size_t i = 0; i < kMostColumns; ++i) {
      d.terminal(terminal_of(i), "finger of column " + std::to_string(i + 1));
    }
    d.input("step", "moves the paper by a row");
    d.output("half_day", "as rows 0 and 720 come in");
    d.command("set_row", "sets the paper by hand",
              in_steps_of(1, quantity_field("row", "row", 0, kMostRows - 1,
                                            "row that is to be under the fingers")));
    d.command("stop", "stops the tape: strokes do not move it");
    d.command("run", "lets the tape run again");
    d.reading("row", "row", "row under the fingers");
    d.reading("running", "", "0 while the tape is stopped");
    d.reading("slipped", "row", "rows behind true time");
    d.reading("holes", "1",
              "holes under the fingers, column 1 counting 1, column 2 counting 2, ...");
    d.event(kFingersDrop, "fingers_drop", "fingers drop through the holes of the row");
    declare_contact_events(d);
  }
  std::unique_ptr<const Part> make(Builder& b) const override { return std::make_unique<Tape>(b); }
};

}  // namespace

const PartType& tape_part() {
  static const TapeType type;
  return type;
}

}  // namespace sixty::models
