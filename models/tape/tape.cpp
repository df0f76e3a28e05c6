#include "models/tape/tape.hpp"

#include <cmath>
#include <numeric>

#include "sim/base/math.hpp"
#include "sim/words/words.hpp"

namespace sixty::models {
namespace {

enum Command : std::uint16_t {
  kSetRow,
  kStopTape,
  kRunTape,
  kCutNotch,
  kPatchNotch,
  kMendSprocketHole,
  kShift,
  kPunch,                          ///< + column
  kPatch = kPunch + kMostColumns,  ///< + column
  kAfterPatches = kPatch + kMostColumns
};
enum Output : std::size_t { kHalfDay };
enum Own : std::uint16_t { kFingersDrop = 1 };
enum Reading : std::size_t { kRow, kRunning, kSlipped, kHoles, kJumps, kCurrent, kSparkEnergy };

constexpr std::int64_t kNoon = 720;

std::string terminal_of(std::size_t column) { return "finger_" + std::to_string(column + 1); }

Columns with(Columns columns, std::size_t column) {
  return static_cast<Columns>(columns | (1U << column));
}
Columns without(Columns columns, std::size_t column) {
  return static_cast<Columns>(columns & ~(1U << column));
}

}  // namespace

Tape::Tape(Builder& b)
    : name_(b.name()),
      paper_(paper_of(b)),
      rows_(static_cast<std::int64_t>(b.number("rows"))),
      steps_at_(from_seconds(b.number("steps_at"))),
      finger_drop_(from_seconds(b.number("finger_drop"))),
      finger_speed_(b.number("finger_speed")),
      teeth_in_mesh_(static_cast<std::int64_t>(b.number("teeth_in_mesh"))),
      jumps_at_(static_cast<std::int64_t>(b.number("jumps_at"))),
      feed_slips_(b.number("feed_slips")),
      faces_(contact_faces(b)),
      across_(across_of(b)),
      state_(b.state<TapeState>()),
      air_(b.taken<Surroundings>("surroundings")),
      program_(b.offered<DayProgram>("paper")) {
  if (jumps_at_ > teeth_in_mesh_) {
    b.refuse("jumps_at", "more torn holes than teeth in mesh", "a jump needs no more than these");
  }
  const auto columns = static_cast<std::size_t>(b.number("columns"));
  for (std::size_t i = 0; i < columns; ++i) {
    circuit::Contact contact;
    contact.a = b.node("drum");
    contact.b = b.node(terminal_of(i));
    contact.closed_ohm = faces_.film.ohm(0.5);
    contact.kind = contact_kind(b);
    fingers_.push_back(b.add(contact));
  }
}

void Tape::start(Ctx& ctx) const {
  TapeState& s = ctx.state(state_);
  s = TapeState{};
  s.joined = paper_.joined;
  s.edge = paper_.edge;
  s.faces = faces_;
  DayProgram& program = ctx.state(program_);
  program.columns = static_cast<std::int64_t>(fingers_.size());
  program.minutes = rows_;
  program.acts = paper_.open;
  s.row = wrapped(static_cast<std::int64_t>(std::floor(rows_due(ctx.reader().week_offset()))));
  drop(ctx, s);
}

void Tape::on_event(const Event& event, Ctx& ctx) const {
  TapeState& s = ctx.state(state_);
  if (is_link_change(event)) {
    feel_air(ctx, s);
    return;
  }
  switch (event.kind) {
    case kSignalBase:
      step(ctx, s);
      break;
    case kFingersDrop:
      drop(ctx, s);
      break;
    case kCommandBase + kSetRow:
      set_row(ctx, s, wrapped(static_cast<std::int64_t>(event.value)));
      break;
    case kCommandBase + kShift:
      set_row(ctx, s, wrapped(s.row + static_cast<std::int64_t>(event.value)));
      break;
    case kCommandBase + kStopTape:
      s.stopped = 1;
      break;
    case kCommandBase + kRunTape:
      s.stopped = 0;
      break;
    default:
      mend(event, ctx, s);
      break;
  }
}

// The sprocket's teeth in the paper, and the fingers. Pitch and loudness: common practice, no
// source.
std::vector<Voice> Tape::voices() const {
  return {{Voice::Kind::kTick, kSignalBase, 1500, 0.03, 0.15},
          {Voice::Kind::kTick, kFingersDrop, 3100, 0.02, 0.1}};
}

double Tape::read(std::size_t reading, const Reader& r) const {
  const TapeState& s = r.state(state_);
  switch (reading) {
    case kRow:
      return static_cast<double>(s.row);
    case kRunning:
      return s.stopped != 0 ? 0 : 1;
    case kSlipped:
      return static_cast<double>(slipped(r));
    case kHoles:
      return r.state(program_).acts[static_cast<std::size_t>(s.row)];
    case kJumps:
      return static_cast<double>(s.jumps);
    case kCurrent:
      return std::accumulate(fingers_.begin(), fingers_.end(), 0.0,
                             [&](double sum, int c) { return sum + r.contact_current_a(c); });
    default:
      return spark_j(r);
  }
}

bool Tape::has_use_for(std::size_t command) const {
  if (command < kPunch || command >= kAfterPatches) return true;
  return (command - kPunch) % kMostColumns < fingers_.size();
}

std::int64_t Tape::wrapped(std::int64_t row) const { return floor_mod(row, rows_); }

// Sprocket holes that hold when a row lies under the fingers; the teeth in mesh are about there.
std::int64_t Tape::sound_holes(const TapeState& s, std::int64_t row) const {
  std::int64_t sound = 0;
  for (std::int64_t k = 0; k < teeth_in_mesh_; ++k) {
    const std::int64_t at = row + teeth_in_mesh_ / 2 - k;
    if ((s.edge[static_cast<std::size_t>(wrapped(at))] & kTorn) == 0) ++sound;
  }
  return sound;
}

// As a torn hole comes into mesh and too few sound ones are left, the teeth ride over the paper
// once; then they have found their holes again. So of N torn holes in a row, of which n make a
// jump, N - n + 1 rows are lost each time round.
bool Tape::carries(const TapeState& s, std::int64_t row) const {
  const std::int64_t enters = wrapped(row + teeth_in_mesh_ / 2);
  const bool torn = (s.edge[static_cast<std::size_t>(enters)] & kTorn) != 0;
  if (!torn || s.refused_row == row) return true;
  return teeth_in_mesh_ - sound_holes(s, row) < jumps_at_;
}

// Whether the pawl that steps the sprocket takes it along.
bool Tape::feeds(Ctx& ctx, TapeState& s) const {
  return feed_slips_ == 0 ||
         ctx.draw(static_cast<std::uint32_t>(kMostColumns), s.slip_draws++) >= feed_slips_;
}

void Tape::step(Ctx& ctx, TapeState& s) const {
  const std::int64_t next = (s.row + 1) % rows_;
  const bool carried = carries(s, next);
  const bool fed = feeds(ctx, s);
  const bool moves = s.stopped == 0 && carried && fed;
  if (ctx.full_trace()) {
    const std::array<Condition, 3> conditions = {
        Condition{to_tr("tape is let run"), s.stopped != 0 ? 0.0 : 1.0, 1, s.stopped == 0},
        Condition{to_tr("the pawl takes the sprocket along"), fed ? 1.0 : 0.0, 1, fed},
        Condition{to_tr("sprocket holes that hold"), static_cast<double>(sound_holes(s, next)),
                  static_cast<double>(teeth_in_mesh_ - jumps_at_ + 1), carried}};
    ctx.because(moves, conditions);
  }
  if (s.stopped != 0 || !fed) return;
  if (!carried) {
    s.refused_row = next;
    ++s.jumps;
    return;
  }
  s.refused_row = -1;
  lift(ctx, s, s.joined[static_cast<std::size_t>(s.row)]);
  s.row = next;
  if (reached(ctx.state(program_), s) != s.down) {
    ctx.schedule(ctx.now() + finger_drop_, kFingersDrop, Phase::kContact);
  }
  if ((s.edge[static_cast<std::size_t>(s.row)] & kNotch) != 0) {
    ctx.emit(kHalfDay, s.row < kNoon ? 0 : 1);
  }
}

void Tape::set_row(Ctx& ctx, TapeState& s, std::int64_t row) const {
  s.row = row;
  s.refused_row = -1;
  lift(ctx, s, 0);
  drop(ctx, s);
}

// Fingers slide up out of their holes as the paper moves, but for those whose hole goes on.
void Tape::lift(Ctx& ctx, TapeState& s, Columns but) const {
  const auto lifted = static_cast<Columns>(s.down & ~unsigned{but});
  for (std::size_t i = 0; i < fingers_.size(); ++i) {
    if (holds(lifted, i)) ctx.set_contact(fingers_[i], false, 0, 0);
  }
  s.down = static_cast<Columns>(s.down & but);
}

void Tape::drop(Ctx& ctx, TapeState& s) const {
  const Columns holes = reached(ctx.state(program_), s);
  for (std::size_t i = 0; i < fingers_.size(); ++i) {
    if (!holds(holes, i) || holds(s.down, i)) continue;
    const double draw = ctx.draw(static_cast<std::uint32_t>(i), s.draws[i]++);
    ctx.set_contact(fingers_[i], true, closing_ohm(s.faces, draw), finger_speed_);
  }
  s.down = holes;
}

// Columns with a hole in the row that their finger finds.
Columns Tape::reached(const DayProgram& program, const TapeState& s) {
  return static_cast<Columns>(program.acts[static_cast<std::size_t>(s.row)] & s.in_line);
}

// Fingers that rest on the drum stay in their holes; what the paper has grown shows at the next
// row.
void Tape::feel_air(Ctx& ctx, TapeState& s) const {
  const Surroundings& air = ctx.state(air_);
  tarnish(air, s.faces);
  s.in_line = columns_in_line(across_, air.humidity);
}

void Tape::mend(const Event& event, Ctx& ctx, TapeState& s) const {
  if (event.kind < kCommandBase || event.kind >= kCommandBase + kAfterPatches) return;
  const auto command = static_cast<std::uint16_t>(event.kind - kCommandBase);
  const std::int64_t row = wrapped(static_cast<std::int64_t>(event.value));
  if (command >= kPatch) {
    change_hole(kPatched, command - std::size_t{kPatch}, row, ctx, s);
  } else if (command >= kPunch) {
    change_hole(kPunched, command - std::size_t{kPunch}, row, ctx, s);
  } else if (command == kCutNotch) {
    change_edge(kNotchCut, row, ctx, s);
  } else if (command == kPatchNotch) {
    change_edge(kNotchPatched, row, ctx, s);
  } else {
    change_edge(kEdgeMended, row, ctx, s);
  }
}

// A sticker covers one row of a column, and with it what is torn open there.
void Tape::change_hole(Repair what, std::size_t column, std::int64_t row, Ctx& ctx,
                       TapeState& s) const {
  const auto at = static_cast<std::size_t>(row);
  Columns& open = ctx.state(program_).acts[at];
  const bool here = column < fingers_.size();
  const bool changes = here && holds(open, column) == (what == kPatched);
  const std::array<Condition, 2> conditions = {
      Condition{to_tr("columns of this tape"), static_cast<double>(fingers_.size()),
                static_cast<double>(column + 1), here},
      Condition{to_tr("the paper is not so yet"), changes ? 1.0 : 0.0, 1, changes}};
  ctx.because(changes, conditions);
  if (!changes) return;
  ctx.journal(what,
              row * static_cast<std::int64_t>(kMostColumns) + static_cast<std::int64_t>(column));
  if (what == kPunched) {
    open = with(open, column);
    if (row == s.row) drop(ctx, s);
    return;
  }
  const auto before = static_cast<std::size_t>((row + rows_ - 1) % rows_);
  open = without(open, column);
  s.joined[at] = without(s.joined[at], column);
  s.joined[before] = without(s.joined[before], column);
  if (row == s.row) lift(ctx, s, without(s.down, column));
}

void Tape::change_edge(Repair what, std::int64_t row, Ctx& ctx, TapeState& s) const {
  std::uint8_t& edge = s.edge[static_cast<std::size_t>(row)];
  const unsigned part = what == kEdgeMended ? kTorn : kNotch;
  const unsigned wanted = what == kNotchCut ? edge | part : edge & ~part;
  const bool changes = wanted != edge;
  const std::array<Condition, 1> conditions = {
      Condition{to_tr("the edge is not so yet"), changes ? 1.0 : 0.0, 1, changes}};
  ctx.because(changes, conditions);
  if (!changes) return;
  edge = static_cast<std::uint8_t>(wanted);
  ctx.journal(what, row * static_cast<std::int64_t>(kMostColumns));
}

namespace {

ParamDecl row_argument(const char* help) {
  return in_steps_of(1, quantity_field("row", "row", 0, static_cast<double>(kMostRows - 1), help));
}

void declare_commands(Declaration& d) {
  d.command("set_row", "sets the paper by hand",
            row_argument("row that is to be under the fingers"))
      .sets = "row";
  d.command("stop", "stops the tape: strokes do not move it");
  d.command("run", "lets the tape run again");
  d.command("cut_notch", "cuts a notch into the edge", row_argument("row of the notch"))
      .begins_with = "row";
  d.command("patch_notch", "covers a notch of the edge", row_argument("row of the notch"))
      .begins_with = "row";
  d.command("mend_sprocket_hole", "mends a torn hole of the edge", row_argument("row of the hole"))
      .begins_with = "row";
  const double most = static_cast<double>(kMostRows - 1);
  d.command("shift", "shifts the paper by rows by hand, forward positive",
            in_steps_of(1, quantity_field("rows", "row", -most, most, "later rows come in")));
  const char* const row = "row = minute of the day; of a shorter loop, the same place again";
  for (std::size_t i = 0; i < kMostColumns; ++i) {
    const std::string column = std::to_string(i + 1);
    d.command("punch_" + column, "punches a hole in column " + column, row_argument(row))
        .begins_with = "row";
  }
  for (std::size_t i = 0; i < kMostColumns; ++i) {
    const std::string column = std::to_string(i + 1);
    d.command("patch_" + column, "puts a sticker over a hole of column " + column,
              row_argument(row))
        .begins_with = "row";
  }
}

class TapeType final : public PartType {
 public:
  void declare(Declaration& d) const override {
    d.title = "program tape";
    d.stand = {Stand::Where::kFixed, 890, 190, "", ""};
    d.help = "Loop of paper, one row a minute; a finger over a hole touches the drum.";
    declare_paper(d);
    d.count("teeth_in_mesh", 6, 1, 72, "teeth of the sprocket that are in holes at a time");
    d.count("jumps_at", 3, 1, 72, "torn holes in mesh at which the sprocket rides over the paper");
    d.quantity("feed_slips", "1", 0.0, 0.0, 1,
               "chance that a stroke does not take the sprocket along", "a sound pawl: never");
    d.quantity("steps_at", "s", 5.0, 0, 59, "second of the minute at which a row comes in");
    d.quantity("finger_drop", "s", 0.005, 1e-3, 0.1, "from the stroke's end of a row to the drum");
    d.quantity("finger_speed", "m/s", 0.05, 1e-3, 2, "speed of the finger at the drum");
    declare_contact(d, {0.2, 0.05, 0.55, false, true});
    d.terminal("drum", "drum under the paper, common to all fingers");
    for (std::size_t i = 0; i < kMostColumns; ++i) {
      d.terminal(terminal_of(i), "finger of column " + std::to_string(i + 1));
    }
    d.input("step", "moves the paper by a row");
    d.output("half_day", "as a notch of the edge comes in");
    d.offers<DayProgram>("paper", "holes that lie there now");
    declare_commands(d);
    d.reading("row", "row", "row under the fingers", Lane::kCount);
    d.reading("running", "", "0 while the tape is stopped");
    d.reading("slipped", "row", "rows behind true time");
    d.reading("holes", "1",
              "holes under the fingers, column 1 counting 1, column 2 counting 2, ...");
    d.reading("jumps", "row", "rows lost because the sprocket rode over torn holes");
    d.reading("current", "A", "current through its fingers, all together");
    d.sum("spark_energy", "J", "energy of the fingers' sparks since the start");
    d.motion(kFingersDrop, "fingers_drop", "fingers drop through the holes of the row");
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
