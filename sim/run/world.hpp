#pragma once

#include <cstddef>
#include <vector>

#include "sim/base/clock_time.hpp"
#include "sim/circuit/runtime.hpp"
#include "sim/run/builds.hpp"
#include "sim/run/faults.hpp"
#include "sim/run/journal.hpp"
#include "sim/run/session.hpp"

namespace sixty {

/// A fault that consists of what hands did, while it is in force.
struct ActsDone {
  std::shared_ptr<const Injection> what;
  double level = 0;
};

/// All that changes in a running installation: copy it, and you have the moment.
struct WorldData {
  SimTime now = 0;
  Calendar calendar;
  std::vector<std::byte> arena;  ///< the parts' states
  circuit::NetworkData network;
  std::uint64_t handled = 0;
  Journal journal;
  std::shared_ptr<const Build> build;  ///< in force
  Faults faults;
  std::vector<ActsDone> acts_done;
  Hookups hookups;  ///< meters that are laid on

  std::uint64_t state_hash() const;
};

/// Handles events in their order: gives each to its part, lets the network follow.
class Engine final : public Ctx, public Reader, private Outlook {
 public:
  Engine(std::shared_ptr<const Installation> installation, const Session::Options& options);

  /// Sets the parts going.
  void begin();
  /// For a sink that wants them: shows the steps up to `until` that parts take by themselves.
  /// Order: no event is left before or at `until`.
  void show_steps(SimTime until);
  WorldData& data() { return data_; }
  const WorldData& data() const { return data_; }
  /// After data() was replaced by another moment's.
  void forget_views();
  void set_sink(TraceSink* sink);
  /// Handles the next event, and what the network then does alone up to `until`. Order: only when
  /// there is one.
  void step(SimTime until);
  /// Puts an action in as an event of this instant; a fault or a meter at once.
  void act(const Action& action);
  /// When a fault changes by itself; then it is to follow.
  SimTime next_course() const { return data_.faults.next_change(); }
  void follow_courses(SimTime now);
  /// The world as the parts begin it, before anything has happened. Order: instead of begin().
  Beginning beginning();
  double reading(PartId part, std::size_t reading);
  void draw_figure(PartId part, const Pose& at, Figure& figure);
  void report(PartId part, Report& report);
  const circuit::Probe& look() const;
  circuit::Memo& memo() { return memo_; }
  Builds& builds() { return builds_; }

  // Ctx
  SimTime now() const override { return data_.now; }
  EventHandle schedule(SimTime at, std::uint16_t kind, Phase phase, std::int64_t number,
                       double value) override;
  void cancel(EventHandle handle) override { data_.calendar.cancel(handle); }
  void emit(std::size_t output, double value) override;
  void send(PartId part, std::uint16_t kind, Phase phase, double value) override;
  void link_changed(std::size_t offered) override;
  void set_contact(int contact, bool closed, double ohm, double speed_m_per_s) override;
  void set_next_ohm(int contact, double ohm) override;
  void set_extra_load(int coil, double newton) override;
  circuit::Source& change_source(int source) override;
  circuit::Resistor& change_resistor(int resistor) override;
  circuit::Capacitor& change_capacitor(int capacitor) override;
  circuit::Coil& change_coil(int coil) override;
  circuit::Contact& change_contact(int contact) override;
  double draw(std::uint32_t stream, std::uint64_t number) override;
  void journal(std::uint16_t kind, std::int64_t number, double value) override;
  bool queue_each_step() const override { return options_.queue_each_step; }
  bool full_trace() const override { return sink_ != nullptr && sink_->full(); }
  void note(SimTime at, std::uint16_t kind, bool acted, double value,
            std::span<const Condition> conditions) override;
  void because(bool acted, std::span<const Condition> conditions) override;
  const Reader& reader() override { return *this; }

  // Reader
  SimTime week_offset() const override { return installation_->week_offset; }
  SimTime year_offset() const override { return installation_->year_offset; }
  const circuit::Coil& coil(int coil) const override;
  double coil_current_a(int coil) const override;
  double coil_volts(int coil) const override;
  double coil_gap_m(int coil) const override;
  double coil_speed_m_per_s(int coil) const override;
  double coil_flux_wb(int coil) const override;
  bool contact_conducts(int contact) const override;
  double contact_ohm(int contact) const override;
  double contact_current_a(int contact) const override;
  bool diode_conducts(int diode) const override;
  double volts_between(circuit::Node a, circuit::Node b) const override;
  double capacitor_v(int capacitor) const override;
  double source_current_a(int source) const override;
  double source_charge_as(int source) const override;
  double source_least_v(int source) const override;
  double source_most_a(int source) const override;
  double spark_j(int contact) const override;
  double fuse_heat(int fuse) const override;
  std::vector<JournalEntry> journal() const override { return data_.journal.of(part_); }
  std::string clock_text(SimTime t, int digits) const override;
  std::string dial_text(SimTime t, int digits) const override;
  SimTime civil_shift(SimTime t) const override { return installation_->clock.shift(t); }
  SimTime when_shown(SimTime shown, SimTime from) const override;
  std::string day_text(SimTime t) const override;

 private:
  std::byte* arena() override { return data_.arena.data(); }
  const std::byte* arena() const override { return looking_ ? seen_.data() : data_.arena.data(); }
  class Look;
  void catch_up();
  void see_present();
  SimTime next_step_time() const;
  void record_due_steps();
  void end_instant();
  void handle(const Event& event);
  void begin_event();
  void handle_network(SimTime until);
  void tell_owner(const circuit::Happening& happening);
  [[noreturn]] void fail_at_one_instant() const;
  void put_network_event();
  void take_parts();
  StateSlot<Surroundings> find_air() const;
  const FeedPaths& feed_paths() const;
  void put_fault(const Action& action);
  void put_meter(const Action& action);
  void watch_courses();
  void change_build();
  void rework_network(const Build& before, const Build& after);
  void tell_acts();
  void give(const std::vector<FaultAct>& acts, const Injection& put, double level);
  void tell(PartId part, std::uint16_t kind, double value);
  void tell_rebuilt(const Event& event);
  bool takes(PartId part, std::size_t link) const;
  // Outlook
  SimTime time_of_day() const override;
  std::optional<Surroundings> air() const override;
  double load_a(PartId part) const override;
  double draw(const Injection& put, std::uint64_t number) const override;
  template <class Deed>
  void follow_network(const Deed& deed);
  [[noreturn]] void fail(const circuit::IntegrationFailure& e) const;
  void follow_changes();
  circuit::Network& edit_network();
  circuit::Ledger& sums() const;
  std::string_view kind_name(PartId part, std::uint16_t kind) const;
  void record(const Event& event, PartId part, const circuit::Located* located);
  void explain_coil(const circuit::Located& located);
  void note_missed_chances(const circuit::Located& made);

  std::shared_ptr<const Installation> installation_;  ///< sound
  Session::Options options_;
  Builds builds_;
  WorldData data_;
  mutable circuit::Memo memo_;
  mutable circuit::Probe probe_;
  mutable circuit::Ledger sums_;
  mutable SimTime sums_at_ = kNever;
  TraceSink* sink_ = nullptr;
  Event current_;
  PartId part_ = 0;                   ///< whose turn it is
  EventId changed_by_ = kSceneStart;  ///< event that changed the network's inputs
  SimTime instant_ = -1;
  int at_instant_ = 0;
  static constexpr SimTime kNotCaughtUp = INT64_MIN;
  StateSlot<Surroundings> air_;             ///< first that is offered; what courses depend on
  bool outlining_ = false;                  ///< only the parts' first states are wanted
  std::vector<const Part*> parts_;          ///< the build's, side by side
  std::vector<PartId> stepping_;            ///< parts that step by themselves
  std::vector<std::uint8_t> steps_;         ///< per part: whether it is one of them
  std::vector<SimTime> shown_until_;        ///< for each of them: what a full trace has of it
  SimTime caught_up_until_ = kNotCaughtUp;  ///< until then none of them has anything to catch up
  std::vector<std::byte> seen_;  ///< the states as they look from outside, up to the present
  SimTime seen_at_ = kNever;     ///< and when that was; kNever: something has happened since
  bool looking_ = false;         ///< a part is asked from outside, so it sees `seen_`
  std::uint64_t notes_ = 0;      ///< made during the event being handled
  bool acted_ = true;
  std::vector<Condition> conditions_;
  std::vector<TraceRecord> pending_notes_;
  std::vector<std::vector<Condition>> pending_conditions_;
};

}  // namespace sixty
