#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <type_traits>
#include <vector>

#include "sim/circuit/located.hpp"
#include "sim/kernel/calendar.hpp"
#include "sim/part/assumptions.hpp"
#include "sim/part/declaration.hpp"
#include "sim/part/figure.hpp"
#include "sim/part/links.hpp"
#include "sim/part/report.hpp"
#include "sim/part/voice.hpp"

namespace sixty {

/// All parts' changing values at one moment.
class States {
 public:
  explicit States(std::byte* arena) : arena_(arena) {}
  template <class S>
  S& of(StateSlot<S> slot) const {
    return *reinterpret_cast<S*>(arena_ + slot.offset);
  }

 private:
  std::byte* arena_;
};

/// One of the steps that a part takes by itself between two of its events.
struct Step {
  SimTime at = kNever;          ///< kNever: there is none
  std::uint16_t kind = 0;       ///< declared with Declaration::step
  std::int64_t number = 0;      ///< payload of the event that it would be
  EventId since = kSceneStart;  ///< the part's event from which on it has gone by itself
  std::uint64_t nth = 0;        ///< how many-th step since then, from 1
};

/// Something that had to be so for an event to happen, with what was measured and needed.
struct Condition {
  std::string_view what;  ///< text that lives as long as the installation
  double measured = 0;
  double needed = 0;
  bool met = false;
};

/// An entry of a part's log, for its report: rings, stops and the like.
struct JournalEntry {
  SimTime at = 0;
  PartId part = 0;
  std::uint16_t kind = 0;
  std::int64_t number = 0;
  double value = 0;
};

/// Kinds of events that a part is sent, beside its own small numbers (0 .. 0xfff).
constexpr std::uint16_t kSignalBase = 0x1000;       ///< + number of the input
constexpr std::uint16_t kCommandBase = 0x2000;      ///< + number of the command
constexpr std::uint16_t kLinkChangedBase = 0x3000;  ///< + number of the taken link
constexpr std::uint16_t kLocatedBase = 0x4000;      ///< + circuit::What
constexpr std::uint16_t kRideMakes = 0x5000;        ///< a rider's place has come
constexpr std::uint16_t kRideBreaks = 0x5001;
/// The part has been built anew, with other values, while it runs; see Part::on_rebuilt.
constexpr std::uint16_t kRebuilt = 0x6000;
/// Names of passed marks are declared as events of kind kMarkBase + code.
constexpr std::uint16_t kMarkBase = 0x4100;
/// Kind of the event in which that happens at an element of the part.
constexpr std::uint16_t located_kind(circuit::What what) {
  return static_cast<std::uint16_t>(kLocatedBase + static_cast<std::uint16_t>(what));
}

/// What a part may look at, at an instant, without changing anything. Links are up to date, and so
/// is, but while an event is handled, the state of parts that step by themselves.
class Reader {
 public:
  virtual ~Reader() = default;
  virtual SimTime now() const = 0;
  /// Time since Monday 00:00 at the scene's start.
  virtual SimTime week_offset() const = 0;
  /// Time since 1 January 00:00 at the scene's start.
  virtual SimTime year_offset() const = 0;
  /// How far clocks on the wall have gone forward since the start; 0 where no summer time is kept.
  virtual SimTime civil_shift(SimTime t) const = 0;
  /// First instant at or after `from` at which they show the start's time and `shown` more;
  /// kNever if there is none, because they go forward over it.
  virtual SimTime when_shown(SimTime shown, SimTime from) const = 0;
  /// What they show now, since Monday 00:00 before the start.
  SimTime since_monday() const { return week_offset() + now() + civil_shift(now()); }
  template <class S>
  const S& state(StateSlot<S> slot) const {
    return *reinterpret_cast<const S*>(arena() + slot.offset);
  }
  /// A coil as it is now: its values may have been changed since it was built.
  virtual const circuit::Coil& coil(int coil) const = 0;
  virtual double coil_current_a(int coil) const = 0;
  virtual double coil_volts(int coil) const = 0;
  virtual double coil_gap_m(int coil) const = 0;
  virtual double coil_speed_m_per_s(int coil) const = 0;
  virtual double coil_flux_wb(int coil) const = 0;
  virtual bool contact_conducts(int contact) const = 0;
  virtual double contact_ohm(int contact) const = 0;
  /// Also that of its spark.
  virtual double contact_current_a(int contact) const = 0;
  virtual bool diode_conducts(int diode) const = 0;
  virtual double volts_between(circuit::Node a, circuit::Node b) const = 0;
  virtual double capacitor_v(int capacitor) const = 0;
  virtual double source_current_a(int source) const = 0;
  /// Sums since the start: charge through a source (A s), least volts, most amperes; spark energy.
  virtual double source_charge_as(int source) const = 0;
  virtual double source_least_v(int source) const = 0;
  virtual double source_most_a(int source) const = 0;
  virtual double spark_j(int contact) const = 0;
  /// Share of the heat that melts it.
  virtual double fuse_heat(int fuse) const = 0;
  /// This part's own journal so far.
  virtual std::vector<JournalEntry> journal() const = 0;
  /// "Mon 10:15:05.02" for a time of this scene; with its date after the first week.
  virtual std::string clock_text(SimTime t, int digits) const = 0;
  /// The same of a dial that stood right at the start and has gone on by `t` since.
  virtual std::string dial_text(SimTime t, int digits) const = 0;
  /// "Mon 10:15", with the date once the scene has gone on for more than a week.
  virtual std::string day_text(SimTime t) const = 0;

 protected:
  virtual const std::byte* arena() const = 0;
};

/// A part's only way to act on the world while it handles an event. The part's links are up to
/// date.
class Ctx {
 public:
  virtual ~Ctx() = default;
  virtual SimTime now() const = 0;
  template <class S>
  S& state(StateSlot<S> slot) {
    return states().of(slot);
  }
  States states() { return States(arena()); }
  /// An event to this part itself.
  virtual EventHandle schedule(SimTime at, std::uint16_t kind, Phase phase, std::int64_t number = 0,
                               double value = 0) = 0;
  virtual void cancel(EventHandle handle) = 0;
  /// A signal to all inputs that are connected to an output.
  virtual void emit(std::size_t output, double value = 0) = 0;
  /// An event to another part now (a rider).
  virtual void send(PartId part, std::uint16_t kind, Phase phase, double value = 0) = 0;
  /// Tells all takers of an offered link that its state has changed.
  virtual void link_changed(std::size_t offered) = 0;
  /// Works a contact. `ohm`: resistance if it closes; `speed`: of the closing blade, for bounce.
  virtual void set_contact(int contact, bool closed, double ohm, double speed_m_per_s) = 0;
  /// Resistance that a contact will have at its next closing; felt from the next outside change on.
  virtual void set_next_ohm(int contact, double ohm) = 0;
  /// Load that another mechanism puts on a coil's armature beyond its second gap.
  virtual void set_extra_load(int coil, double newton) = 0;
  /// An element of this part, to change its values (not its nodes): for good, felt from now on.
  virtual circuit::Source& change_source(int source) = 0;
  virtual circuit::Resistor& change_resistor(int resistor) = 0;
  virtual circuit::Capacitor& change_capacitor(int capacitor) = 0;
  virtual circuit::Coil& change_coil(int coil) = 0;
  virtual circuit::Contact& change_contact(int contact) = 0;
  /// Draw `number` of a stream of this part's chance, uniform in [0, 1).
  virtual double draw(std::uint32_t stream, std::uint64_t number) = 0;
  /// An entry in this part's journal.
  virtual void journal(std::uint16_t kind, std::int64_t number = 0, double value = 0) = 0;
  /// Steps that a part could take by itself are to be queued one by one (same result).
  virtual bool queue_each_step() const = 0;
  /// Someone keeps a full trace: events that only a trace shows, and conditions, are wanted.
  virtual bool full_trace() const = 0;
  /// Full trace only: an event of this part that changes nothing (a failed opportunity).
  virtual void note(SimTime at, std::uint16_t kind, bool acted, double value = 0,
                    std::span<const Condition> conditions = {}) = 0;
  /// Full trace only: what let the event being handled happen, or held it back.
  virtual void because(bool acted, std::span<const Condition> conditions) = 0;
  virtual const Reader& reader() = 0;

 protected:
  virtual std::byte* arena() = 0;
};

/// One part of an installation: constant values only. All that changes lies in the world's state,
/// so that a world can be copied, restored and run many times over.
class Part {
 public:
  virtual ~Part() = default;
  /// Sets the first state and the first events.
  virtual void start(Ctx&) const {}
  /// Own events, signals, commands, changed links, rides.
  virtual void on_event(const Event&, Ctx&) const {}
  /// Something happened at an element that this part owns; the event's cause is known to the trace.
  virtual void on_located(const circuit::Located&, Ctx&) const {}
  /// It has taken the place of itself with other values (a fault came, or went). What start() sets
  /// from the values is so already, and so are its elements; whoever has foreseen something, or
  /// keeps what follows from values and state together, does it anew. A change of each taken link
  /// is told next.
  virtual void on_rebuilt(Ctx&) const {}
  /// Of a part that steps by itself: makes the steps that lie before `now`, and brings up to date
  /// its own state and the links that it has a share in. Called in the world before another part
  /// handles an event, and in a copy of it before anybody looks; must not matter to what comes
  /// after. Returns up to when, if it handles no event itself, there will be nothing to catch up.
  virtual SimTime catch_up(SimTime now, States) const {
    (void)now;
    return kNever;
  }
  /// Its first step after `after`, for the full trace. Whatever lies beyond its next event is not
  /// heeded.
  virtual Step next_step(SimTime after, const Reader&) const {
    (void)after;
    return {};
  }
  /// Value of a declared reading at the reader's time. Must not need more than the state.
  virtual double read(std::size_t reading, const Reader&) const {
    (void)reading;
    return 0;
  }
  /// Whether this one has what a command is about: paper of four columns has no fifth to punch.
  virtual bool has_use_for(std::size_t command) const {
    (void)command;
    return true;
  }
  virtual void report(Report&, const Reader&) const {}
  /// Draws it as it stands at the reader's time. `at`: where, in the units of the drawing; for a
  /// part that hangs on another's link, the pose that the other gave that link (turn included).
  virtual void draw(Figure& figure, const Pose& at, const Reader&) const {
    (void)figure;
    (void)at;
  }
  /// What can be heard of it.
  virtual std::vector<Voice> voices() const { return {}; }
};

/// What a part type gets to make a part of: checked values, nodes, places in the state.
class Builder {
 public:
  virtual ~Builder() = default;
  virtual const std::string& name() const = 0;  ///< the part's name in the scene
  virtual const Value& value(std::string_view param) const = 0;
  /// What is taken for granted: asked for in the one place that has the law.
  virtual const Assumptions& assumptions() const = 0;
  double number(std::string_view param) const { return value(param).number; }
  bool flag(std::string_view param) const { return value(param).number != 0; }
  virtual circuit::Node node(std::string_view terminal) const = 0;
  /// A node of the part's own, between elements.
  virtual circuit::Node inner_node() = 0;
  /// Frequency of the alternating voltage that sources rectify; one for the whole installation.
  virtual void mains(std::string_view param) = 0;
  /// Elements; the owner is set to this part. Return the element's number.
  virtual int add(circuit::Source source) = 0;
  virtual int add(circuit::Resistor resistor) = 0;
  virtual int add(circuit::Capacitor capacitor) = 0;
  virtual int add(circuit::Diode diode) = 0;
  virtual int add(circuit::Contact contact) = 0;
  virtual int add(circuit::Coil coil) = 0;
  virtual int add(circuit::Fuse fuse) = 0;
  template <class S>
  StateSlot<S> state() {
    return {reserve(sizeof(S))};
  }
  /// State of a link that this part offers, or takes (invalid if optional and not connected).
  template <class L>
  StateSlot<L> offered(std::string_view link) const {
    return {link_offset(link, true)};
  }
  template <class L>
  StateSlot<L> taken(std::string_view link) const {
    return {link_offset(link, false)};
  }
  /// Puts this part on a shaft that it takes.
  virtual void ride(std::string_view link, Rider rider) = 0;
  /// Riders of a shaft that this part offers: complete when the world starts, so keep the pointer.
  virtual const std::vector<Rider>* riders(std::string_view link) const = 0;
  /// A mistake that no declaration could catch, e.g. two values that contradict each other.
  /// Goes to the user with the place of `param`.
  void refuse(std::string_view param, std::string what, std::string mend) {
    refuse(param, Value{}, std::move(what), std::move(mend));
  }
  /// The same of one entry in a parameter that is a list; goes out with the entry's own place.
  virtual void refuse(std::string_view param, const Value& entry, std::string what,
                      std::string mend) = 0;

 protected:
  virtual std::size_t reserve(std::size_t bytes) = 0;
  virtual std::size_t link_offset(std::string_view link, bool offered) const = 0;
};

/// A kind of part. One object of each is all there is.
class PartType {
 public:
  virtual ~PartType() = default;
  virtual void declare(Declaration&) const = 0;
  virtual std::unique_ptr<const Part> make(Builder&) const = 0;
};

}  // namespace sixty
