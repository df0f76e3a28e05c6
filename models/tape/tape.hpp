#pragma once

#include <string>
#include <vector>

#include "models/tape/paper.hpp"
#include "sim/part/contact_params.hpp"

namespace sixty::models {

struct TapeState {
  std::int64_t row = 0;
  std::int64_t stopped = 0;
  std::int64_t refused_row = -1;  ///< row that the sprocket last failed to bring in; -1: none
  std::int64_t jumps = 0;
  Columns down = 0;             ///< fingers that rest on the drum
  Columns in_line = UINT8_MAX;  ///< columns whose holes lie under their fingers, across the paper
  std::uint8_t spare[6] = {};
  std::array<std::uint64_t, kMostColumns> draws = {};
  std::array<Columns, kMostRows> joined = {};
  std::array<std::uint8_t, kMostRows> edge = {};
  ContactFaces faces;  ///< of all fingers
  std::uint64_t slip_draws = 0;
};

/// Loop of paper over a drum, with its fingers.
class Tape final : public Part {
 public:
  explicit Tape(Builder& b);
  void start(Ctx& ctx) const override;
  void on_event(const Event& event, Ctx& ctx) const override;
  double read(std::size_t reading, const Reader& r) const override;
  bool has_use_for(std::size_t command) const override;
  void report(Report& report, const Reader& r) const override;
  void draw(Figure& figure, const Pose& at, const Reader& r) const override;
  std::vector<Voice> voices() const override;

 private:
  /// What a hand does to the paper; kept in the journal by these numbers.
  enum Repair : std::uint16_t { kPunched = 1, kPatched, kNotchCut, kNotchPatched, kEdgeMended };

  std::int64_t wrapped(std::int64_t row) const;
  double rows_due(SimTime since_monday) const;
  std::int64_t slipped(const Reader& r) const;
  double spark_j(const Reader& r) const;
  std::string time_of(std::int64_t row) const;
  std::string apart_text(std::int64_t behind) const;
  std::string repair_text(const JournalEntry& entry) const;
  void report_place(Report& report, const Reader& r) const;
  void report_repairs(Report& report, const Reader& r) const;

  std::int64_t sound_holes(const TapeState& s, std::int64_t row) const;
  bool carries(const TapeState& s, std::int64_t row) const;
  bool feeds(Ctx& ctx, TapeState& s) const;
  void step(Ctx& ctx, TapeState& s) const;
  void set_row(Ctx& ctx, TapeState& s, std::int64_t row) const;
  void lift(Ctx& ctx, TapeState& s, Columns but) const;
  void drop(Ctx& ctx, TapeState& s) const;
  static Columns reached(const DayProgram& program, const TapeState& s);
  void feel_air(Ctx& ctx, TapeState& s) const;
  void mend(const Event& event, Ctx& ctx, TapeState& s) const;
  void change_hole(Repair what, std::size_t column, std::int64_t row, Ctx& ctx, TapeState& s) const;
  void change_edge(Repair what, std::int64_t row, Ctx& ctx, TapeState& s) const;

  std::string name_;
  Paper paper_;
  std::int64_t rows_;
  SimTime steps_at_;
  SimTime finger_drop_;
  double finger_speed_;
  std::int64_t teeth_in_mesh_;
  std::int64_t jumps_at_;
  double feed_slips_;
  ContactFaces faces_;
  Across across_;
  StateSlot<TapeState> state_;
  StateSlot<Surroundings> air_;
  StateSlot<DayProgram> program_;
  std::vector<int> fingers_;
};

}  // namespace sixty::models
