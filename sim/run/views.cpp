// Looking at a world, and telling what happens in it, without changing it.
#include <algorithm>

#include "sim/run/world.hpp"

namespace sixty {
namespace {

std::size_t at(int element) { return static_cast<std::size_t>(element); }

constexpr auto kLocatedHeld = static_cast<std::uint16_t>(circuit::What::kHeld);
constexpr std::string_view kLocatedNames[] = {"starts",     "seats",  "leaves", "returns",
                                              "sticks",     "passes", "makes",  "breaks",
                                              "spark_ends", "melts",  "held"};

}  // namespace

const circuit::Probe& Engine::look() const {
  probe_.look(data_.network, data_.now);
  return probe_;
}

circuit::Ledger& Engine::sums() const {
  if (sums_at_ != data_.now) {
    sums_ = circuit::ledger_at(data_.network, data_.now, memo_);
    sums_at_ = data_.now;
  }
  return sums_;
}

const circuit::Coil& Engine::coil(int coil) const {
  const circuit::NetworkData& n = data_.network;
  return (n.edited != nullptr ? *n.edited : *n.network).coils[at(coil)];
}
double Engine::coil_current_a(int coil) const { return look().coil_current_a(at(coil)); }
double Engine::coil_volts(int coil) const { return look().coil_volts(at(coil)); }
double Engine::coil_gap_m(int coil) const { return look().state().coils[at(coil)].gap_m; }
double Engine::coil_speed_m_per_s(int coil) const {
  return look().state().coils[at(coil)].speed_m_per_s;
}
double Engine::coil_flux_wb(int coil) const { return look().state().coils[at(coil)].linkage_wb; }
bool Engine::contact_conducts(int contact) const {
  return look().state().contacts[at(contact)].gap != circuit::Gap::kOpen;
}
double Engine::contact_ohm(int contact) const {
  const circuit::ContactState& s = look().state().contacts[at(contact)];
  const bool lies_dry = s.gap == circuit::Gap::kClosed && s.dry != 0;
  return lies_dry ? data_.network.inputs.contacts[at(contact)].closed_ohm : s.ohm;
}
double Engine::contact_current_a(int contact) const {
  return look().contact_current_a(at(contact));
}
bool Engine::diode_conducts(int diode) const { return look().state().diode_on[at(diode)] != 0; }
double Engine::volts_between(circuit::Node a, circuit::Node b) const { return look().volts(a, b); }
double Engine::capacitor_v(int capacitor) const {
  return look().state().capacitor_v[at(capacitor)];
}
double Engine::source_current_a(int source) const { return look().source_current_a(at(source)); }
double Engine::source_charge_as(int source) const { return sums().charge_as[at(source)]; }
double Engine::source_least_v(int source) const { return sums().least_v[at(source)]; }
double Engine::source_most_a(int source) const { return sums().most_a[at(source)]; }
double Engine::spark_j(int contact) const { return sums().spark_j[at(contact)]; }
double Engine::fuse_heat(int fuse) const {
  return circuit::fuse_heat(data_.network, at(fuse), data_.now, memo_);
}

std::string Engine::clock_text(SimTime t, int digits) const {
  return format_instant(installation_->clock, t, digits);
}

std::string Engine::dial_text(SimTime t, int digits) const {
  return format_instant(installation_->clock.start, t, digits);
}

SimTime Engine::when_shown(SimTime shown, SimTime from) const {
  return installation_->clock.when(shown, from).value_or(kNever);
}

std::string Engine::day_text(SimTime t) const {
  const std::string text = format_weekday_time(installation_->clock, t, 0);  // "Mon 10:15:00"
  const std::string minute = text.substr(4, 5);
  if (data_.now <= 7 * kDay) return text.substr(0, 4) + minute;
  return text.substr(0, 4) + format_iso(installation_->clock, t, 0).substr(0, 10) + " " + minute;
}

void Engine::see_present() {
  if (seen_at_ == data_.now) return;
  seen_ = data_.arena;
  for (const PartId p : stepping_) parts_[p]->catch_up(data_.now, States(seen_.data()));
  seen_at_ = data_.now;
}

/// While it lives, readers see the states as they look from outside.
class Engine::Look {
 public:
  explicit Look(Engine& engine) : engine_(engine) {
    engine_.see_present();
    engine_.looking_ = true;
  }
  Look(const Look&) = delete;
  Look& operator=(const Look&) = delete;
  ~Look() { engine_.looking_ = false; }

 private:
  Engine& engine_;
};

double Engine::reading(PartId part, std::size_t reading) {
  const Look look(*this);
  part_ = part;
  return parts_[part]->read(reading, *this);
}

void Engine::draw_figure(PartId part, const Pose& at, Figure& figure) {
  const Look look(*this);
  part_ = part;
  parts_[part]->draw(figure, at, *this);
}

void Engine::report(PartId part, Report& report) {
  const Look look(*this);
  part_ = part;
  parts_[part]->report(report, *this);
}

std::string_view Engine::kind_name(PartId part, std::uint16_t kind) const {
  const Declaration& d = installation_->parts[part].kind->declaration;
  for (const EventDecl& e : d.events) {
    if (e.kind == kind) return e.name;
  }
  const auto within = [&](std::uint16_t base, std::size_t count) {
    return kind >= base && static_cast<std::size_t>(kind - base) < count;
  };
  if (within(kSignalBase, d.inputs.size())) return d.inputs[at(kind - kSignalBase)].name;
  if (within(kCommandBase, d.commands.size())) return d.commands[at(kind - kCommandBase)].name;
  if (within(kLinkChangedBase, d.taken.size())) return d.taken[at(kind - kLinkChangedBase)].name;
  if (within(kLocatedBase, std::size(kLocatedNames))) return kLocatedNames[kind - kLocatedBase];
  if (kind == kRideMakes) return "ride_makes";
  if (kind == kRideBreaks) return "ride_breaks";
  return "event";
}

void Engine::record(const Event& event, PartId part, const circuit::Located* located) {
  TraceRecord r;
  r.event = event;
  r.part = part;
  r.acted = acted_;
  r.located = located;
  std::uint16_t kind = event.kind;
  if (located != nullptr && located->what == circuit::What::kPasses) {
    kind = static_cast<std::uint16_t>(kMarkBase + located->code);
  }
  r.kind = kind_name(part, kind);
  if (located != nullptr && sink_->full()) explain_coil(*located);
  r.conditions = conditions_;
  sink_->record(r);
  conditions_.clear();
  for (std::size_t k = 0; k < pending_notes_.size(); ++k) {
    pending_notes_[k].conditions = pending_conditions_[k];
    sink_->record(pending_notes_[k]);
  }
  pending_notes_.clear();
  pending_conditions_.clear();
}

/// What let a coil's armature start, or held it: the contacts on its way, and the volts.
void Engine::explain_coil(const circuit::Located& located) {
  using circuit::What;
  if (located.what == What::kMakes) note_missed_chances(located);
  if (located.what != What::kStarts && located.what != What::kHeld) return;
  const auto coil = static_cast<std::size_t>(located.element);
  conditions_ = feed_paths().conditions(coil, look().state());
  const circuit::Coil& c = data_.network.network->coils[coil];
  const double load = data_.network.inputs.coil_extra_load_n[coil];
  const double needed = circuit::statics(c.magnet, c.armature, load).pulls_in_a * c.resistance_ohm;
  const bool held = located.what == What::kHeld;
  conditions_.push_back({"volts at the coil", located.volts, needed, !held});
}

/// A contact closed: coils behind it that get nothing because another contact is open.
void Engine::note_missed_chances(const circuit::Located& made) {
  circuit::State state = look().state();
  state.contacts[at(made.element)].gap = circuit::Gap::kClosed;  // what is seen is just before it
  for (const std::size_t coil : feed_paths().coils_behind(at(made.element))) {
    const std::vector<Condition> way = feed_paths().conditions(coil, state, made.element);
    const bool all = std::all_of(way.begin(), way.end(), [](const Condition& c) { return c.met; });
    const circuit::Owner owner = data_.network.network->coils[coil].owner;
    if (way.empty() || all || owner < 0) continue;
    const PartId before = part_;
    part_ = static_cast<PartId>(owner);
    note(data_.now, static_cast<std::uint16_t>(kLocatedBase + kLocatedHeld), false, 0, way);
    part_ = before;
  }
}

SimTime Engine::next_step_time() const {
  SimTime first = kNever;
  for (std::size_t k = 0; k < stepping_.size(); ++k) {
    const Part& part = *parts_[stepping_[k]];
    first = std::min(first, part.next_step(shown_until_[k], *this).at);
  }
  return first;
}

void Engine::show_steps(SimTime until) {
  if (sink_ == nullptr || !sink_->steps()) return;
  for (SimTime next = next_step_time(); next <= until; next = next_step_time()) {
    data_.now = std::max(data_.now, next);
    end_instant();
  }
}

/// Nothing is left in the calendar of this instant.
void Engine::end_instant() {
  if (sink_->steps()) record_due_steps();
  sink_->settled(data_.now);
}

void Engine::record_due_steps() {
  for (std::size_t k = 0; k < stepping_.size(); ++k) {
    const PartId p = stepping_[k];
    const Step step = parts_[p]->next_step(shown_until_[k], *this);
    if (step.at > data_.now) continue;
    shown_until_[k] = step.at;
    TraceRecord r;
    r.event.at = data_.now;
    r.event.id = trace_only({step.since, true, step.nth});
    r.event.cause = step.since;
    r.event.target = p;
    r.event.kind = step.kind;
    r.event.number = step.number;
    r.part = p;
    r.kind = kind_name(p, step.kind);
    sink_->record(r);
  }
}

void Engine::note(SimTime at_time, std::uint16_t kind, bool acted, double value,
                  std::span<const Condition> conditions) {
  if (!full_trace()) return;
  TraceRecord r;
  r.event.at = at_time;
  r.event.id = trace_only({current_.id, false, ++notes_});
  r.event.cause = current_.id;
  r.event.target = part_;
  r.event.kind = kind;
  r.event.value = value;
  r.part = part_;
  r.acted = acted;
  r.kind = kind_name(part_, kind);
  pending_notes_.push_back(r);
  pending_conditions_.emplace_back(conditions.begin(), conditions.end());
}

void Engine::because(bool acted, std::span<const Condition> conditions) {
  acted_ = acted;
  if (full_trace()) conditions_.assign(conditions.begin(), conditions.end());
}

}  // namespace sixty
