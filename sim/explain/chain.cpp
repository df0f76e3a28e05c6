#include "sim/explain/chain.hpp"

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <utility>

#include "sim/explain/draws.hpp"
#include "sim/explain/loss.hpp"
#include "sim/explain/reading_chain.hpp"
#include "sim/explain/records.hpp"
#include "sim/explain/roots.hpp"
#include "sim/explain/telling.hpp"
#include "sim/explain/way.hpp"

namespace sixty::explain {
namespace {

using What = Link::What;

constexpr SimTime kIntoDrive = 20 * kMillisecond;  // bounces are over, what is driven is under way

std::uint16_t located_kind(circuit::What what) {
  return static_cast<std::uint16_t>(kLocatedBase + static_cast<std::uint16_t>(what));
}

class Chain {
 public:
  Chain(Session& ours, Session& sound, const Comparison& comparison)
      : ours_(ours), sound_(sound), comparison_(comparison), roots_(ours, sound, comparison.hands) {
    const SimTime at = comparison.first->deed.at;
    const SimTime from = std::max<SimTime>(at - kBefore, 0);
    BothRecords records(ours_, sound_, from, at + kBehind);
    our_records_ = std::move(records.ours);
    sound_records_ = std::move(records.sound);
  }

  std::vector<Link> find() {
    const Deed& deed = comparison_.first->deed;
    const std::vector<Kept>& records = comparison_.first->missing ? sound_records_ : our_records_;
    add_deed(deed, comparison_.first->missing);
    if (comparison_.first->length) {
      explain_length(deed, comparison_.first->missing);
      return std::move(links_);
    }
    const Kept* seen = nearest(records, deed.part, deed.event_kind, deed.at, kSame, deed.acted);
    if (seen == nullptr) {
      add_root(deed.part, deed.at);
    } else if (comparison_.first->missing) {
      explain_missing(*seen);
    } else {
      explain_extra(*seen);
    }
    return std::move(links_);
  }

  std::vector<Link> find_behind(const Behind& behind) {
    if (behind.coil >= 0) {
      enough_ = 0.995;  // another voltage or delay has been seen: little may tell why
      const auto coil = static_cast<std::size_t>(behind.coil);
      explain_volts(behind.part, coil, behind.at_in_sound + kIntoDrive, behind.at + kIntoDrive);
      // The volts are those of a sound one, but come at another time.
      if (!ends_at_root(links_) && behind.at + kIntoDrive < behind.at_in_sound) {
        explain_contacts(behind.part, coil, behind.at + kIntoDrive, false);
      } else if (!ends_at_root(links_) && behind.at > behind.at_in_sound + kIntoDrive) {
        explain_contacts(behind.part, coil, behind.at_in_sound + kIntoDrive, true);
      }
    } else {
      add_root(behind.part, behind.at);
    }
    // What the coil had is told by what happened there.
    const auto volts = [](const Link& link) { return link.what == What::kVolts; };
    links_.erase(std::remove_if(links_.begin(), links_.end(), volts), links_.end());
    return std::move(links_);
  }

 private:
  const Installation& scene() const { return ours_.installation(); }
  Telling telling() const { return Telling(scene()); }

  void add(Link link) {
    const std::size_t most =
        link.what == What::kValue || link.what == What::kHand ? kMostLinks : kMostLinks - 1;
    if (links_.size() < most) links_.push_back(std::move(link));
  }

  void add_told(PartId part, SimTime at, std::string text) {
    Link link;
    link.at = at;
    link.part = part;
    link.text = std::move(text);
    add(std::move(link));
  }

  void add_deed(const Deed& deed, bool missing) {
    std::string text;
    if (comparison_.first->length) {
      text = missing ? telling().ended(deed.part, deed.at, deed.kind)
                     : telling().went_on(deed.part, deed.at, deed.kind);
    } else {
      text = missing ? telling().did_not(deed.part, deed.at, deed.kind, deed.acted)
                     : telling().did(deed.part, deed.at, deed.kind, deed.acted);
    }
    add_told(deed.part, deed.at, std::move(text));
  }

  // ---- what did not happen
  void explain_missing(const Kept& expected) {
    if (!gone_to_.insert(expected.event.id).second) return;
    if (links_.back().part != expected.part)
      add_told(expected.part, expected.event.at,
               telling().did_not(expected.part, expected.event.at, expected.kind, expected.acted));
    if (const Kept* stroke = stroke_before(expected); stroke != nullptr) {
      explain_missing(*stroke);
      return;
    }
    const Kept* failed = failure_near(expected);
    if (failed != nullptr && explain_conditions(*failed, expected)) return;
    if (expected.located && expected.happening.what <= circuit::What::kReturns) {
      explain_armature(expected);
      return;
    }
    explain_cause(expected);
  }

  const Kept* failure_near(const Kept& expected) const {
    const bool armature = expected.located && expected.happening.what <= circuit::What::kPasses;
    const std::uint16_t kind = armature ? located_kind(circuit::What::kHeld) : expected.event.kind;
    return nearest(our_records_, expected.part, kind, expected.event.at, kBehind, false);
  }

  /// Returns whether a condition tells it all.
  bool explain_conditions(const Kept& failed, const Kept& expected) {
    for (const Kept::Needed& c : failed.conditions) {
      if (c.met || c.what == kCoilVolts) continue;
      const std::optional<PartId> contact = part_named_by(c.what, scene());
      if (contact) {
        // A verdict on a drive comes at its end, when what fed it may have been let go.
        if (conducted(*contact, in_ours(expected)) ||
            conducted(*contact, in_ours(expected) + kIntoDrive))
          continue;
        explain_open_contact(*contact, expected);
      } else {
        Link link = quantity_link(What::kCondition, failed.event.at, failed.part,
                                  {c.what, "", c.measured, c.needed});
        link.text = telling().needed(failed.part, c);
        add(std::move(link));
        explain_failed(failed);
      }
      return true;
    }
    return false;
  }

  bool conducted(PartId part, SimTime at) {
    ours_.seek(at);
    const std::vector<int>& contacts = ours_.build().parts[part].contacts;
    return contacts.size() == 1 && conducts(ours_, static_cast<std::size_t>(contacts.front()));
  }

  /// Something that it was to do it did not do: it is another, or had not the volts.
  void explain_failed(const Kept& failed) {
    if (add_root(failed.part, failed.event.at)) return;
    const std::vector<int>& coils = scene().parts[failed.part].coils;
    if (coils.empty()) return;
    explain_volts(failed.part, static_cast<std::size_t>(coils.front()),
                  drive_begin(failed) + kIntoDrive);
  }

  void explain_open_contact(PartId contact, const Kept& expected) {
    Link link = quantity_link(What::kContact, expected.event.at, contact, {"closed", "", 0, 1});
    link.text = telling().had_to_be_closed(contact, expected.event.at, expected.part);
    add(std::move(link));
    const Kept* makes = last_made(sound_records_, contact, expected.event.at);
    if (makes == nullptr && explain_own_deed(contact)) return;
    if (makes == nullptr || differs(contact)) {
      add_root(contact, expected.event.at);
    } else {
      explain_missing(*makes);
    }
  }

  /// It did something itself, perhaps long ago, that it does not when sound: as a wire that melts.
  /// Returns whether what it carried then has a cause.
  bool explain_own_deed(PartId part) {
    for (const auto& [what, tally] : comparison_.tallies) {
      if (what.first != part || tally.extra == 0 || tally.missing != 0) continue;
      const SimTime before = std::max<SimTime>(tally.first - kMillisecond, 0);
      ours_.seek(before);
      sound_.seek(before);
      std::optional<Link> draw = greatest_draw(ours_, sound_, roots_, before);
      if (!draw) continue;
      add_told(part, tally.first, telling().did(part, tally.first, what.second, true));
      const PartId drawing = draw->part;
      add(std::move(*draw));
      return add_root(drawing, before);
    }
    return false;
  }

  void explain_armature(const Kept& expected) {
    const auto coil = static_cast<std::size_t>(expected.happening.element);
    const Kept* cause = by_id(sound_records_, expected.event.cause);
    // What moves only because something before it did is explained there.
    if (cause != nullptr && !happened_in_ours(*cause)) {
      explain_missing(*cause);
      return;
    }
    if (opens(expected)) {  // volts do not open it, but may hold it
      if (!explain_contacts(expected.part, coil, expected.event.at, false))
        add_root(expected.part, expected.event.at);
      return;
    }
    const SimTime into = into_drive(coil, in_ours(expected));
    explain_volts(expected.part, coil, expected.event.at + into, in_ours(expected) + into);
  }

  /// How long after the begin of a drive volts are compared: once bounces are over, but not when
  /// what fed it has let go meanwhile.
  SimTime into_drive(std::size_t coil, SimTime at) {
    ours_.seek(at + kIntoDrive);
    const double later_v = volts_across(ours_, Piece::Kind::kCoil, coil);
    const bool fed_later = !way_of(ours_, coil).empty();
    ours_.seek(at);
    if (way_of(ours_, coil).empty()) return kIntoDrive;
    const bool holds = later_v >= 0.5 * volts_across(ours_, Piece::Kind::kCoil, coil);
    return fed_later && holds ? kIntoDrive : 0;
  }

  static bool opens(const Kept& k) {
    return k.located && (k.happening.what == circuit::What::kLeaves ||
                         k.happening.what == circuit::What::kReturns);
  }

  /// What does not return because it never went: that it did not; nullptr if it is not so.
  const Kept* stroke_before(const Kept& expected) const {
    if (!opens(expected)) return nullptr;
    const auto starts =
        std::find_if(sound_records_.rbegin(), sound_records_.rend(), [&](const Kept& k) {
          return k.part == expected.part && k.event.at < expected.event.at && k.located &&
                 k.happening.what == circuit::What::kStarts;
        });
    return starts == sound_records_.rend() || happened_in_ours(*starts) ? nullptr : &*starts;
  }

  /// When that would have come in the run that is looked at: its cause may have come a little
  /// earlier or later there.
  SimTime in_ours(const Kept& expected) const {
    const Kept* cause = by_id(sound_records_, expected.event.cause);
    if (cause == nullptr) return expected.event.at;
    const Kept* ours =
        nearest(our_records_, cause->part, cause->event.kind, cause->event.at, kSame, cause->acted);
    return ours == nullptr ? expected.event.at
                           : expected.event.at + ours->event.at - cause->event.at;
  }

  void explain_cause(const Kept& expected) {
    const Kept* cause = by_id(sound_records_, expected.event.cause);
    if (cause != nullptr && !happened_in_ours(*cause)) {
      explain_missing(*cause);
    } else if (!add_root(expected.part, expected.event.at) && cause != nullptr &&
               !add_root(cause->part, expected.event.at) && is_armature(*cause)) {
      // It began as it should, and had not what it needs to the end.
      explain_contacts(cause->part, static_cast<std::size_t>(cause->happening.element),
                       expected.event.at, true);
    }
  }

  bool happened_in_ours(const Kept& k) const {
    return nearest(our_records_, k.part, k.event.kind, k.event.at, kSame, k.acted) != nullptr;
  }

  // ---- what happened though it should not have
  void explain_extra(const Kept& seen) {
    if (!gone_to_.insert(seen.event.id | kTraceOnly).second) return;
    if (!seen.acted && explain_conditions(seen, seen)) return;
    const Kept* cause = by_id(our_records_, seen.event.cause);
    if (cause == nullptr || nearest(sound_records_, cause->part, cause->event.kind, cause->event.at,
                                    kSame, cause->acted) != nullptr) {
      if (seen.located && seen.happening.what == circuit::What::kHeld) {
        explain_volts(seen.part, static_cast<std::size_t>(seen.happening.element),
                      drive_begin(seen) + kIntoDrive);
      } else if (is_armature(seen)) {
        const auto coil = static_cast<std::size_t>(seen.happening.element);
        const bool leaves = seen.happening.what >= circuit::What::kLeaves;
        if (!explain_contacts(seen.part, coil, seen.event.at, leaves))
          explain_volts(seen.part, coil, seen.event.at + kIntoDrive);
      } else if (!add_root(seen.part, seen.event.at)) {
        if (cause != nullptr) {
          add_root(cause->part, seen.event.at);
        } else {
          add_root_of_signal(seen);
        }
      }
      return;
    }
    explain_extra(*cause);
  }

  /// A coil that has what it has not in a sound installation, or the other way round: a contact on
  /// its way stands otherwise. Returns whether there is one.
  bool explain_contacts(PartId part, std::size_t coil, SimTime at, bool missing) {
    ours_.seek(at);
    sound_.seek(at);
    const Session& driven = missing ? sound_ : ours_;
    const Session& other = missing ? ours_ : sound_;
    for (const Piece& piece : way_of(driven, coil)) {
      std::size_t there = 0;
      if (piece.kind != Piece::Kind::kContact || !find_piece(other, piece, there)) continue;
      if (conducts(other, there)) continue;
      const auto contact = static_cast<PartId>(piece.part);
      Link link = quantity_link(What::kContact, at, contact,
                                {"closed", "", missing ? 0.0 : 1.0, missing ? 1.0 : 0.0});
      link.text = telling().stood(contact, at, missing, part);
      add(std::move(link));
      if (add_root(contact, at)) return true;
      explain_contact_worked(contact, at, missing);
      return true;
    }
    return false;
  }

  /// Nothing is other about the contact itself: what worked it last?
  void explain_contact_worked(PartId contact, SimTime at, bool missing) {
    const Kept* worked = last_made(missing ? sound_records_ : our_records_, contact, at);
    if (worked == nullptr) return;
    missing ? explain_missing(*worked) : explain_extra(*worked);
  }

  void explain_length(const Deed& deed, bool missing) {
    const std::vector<int>& coils = scene().parts[deed.part].coils;
    if (coils.empty() ||
        !explain_contacts(deed.part, static_cast<std::size_t>(coils.front()), deed.at, missing)) {
      add_root(deed.part, deed.at);
    }
  }

  static bool is_armature(const Kept& k) {
    return k.located &&
           (k.happening.what <= circuit::What::kPasses || k.happening.what == circuit::What::kHeld);
  }

  /// When the drive began that was in vain.
  SimTime drive_begin(const Kept& held) const {
    const Kept* starts = nearest(sound_records_, held.part, located_kind(circuit::What::kStarts),
                                 held.event.at, kBehind, true);
    return starts != nullptr ? starts->event.at : held.event.at;
  }

  void explain_volts(PartId part, std::size_t coil, SimTime at) {
    explain_volts(part, coil, at, at);
  }

  void explain_volts(PartId part, std::size_t coil, SimTime at, SimTime at_in_ours) {
    ours_.seek(at_in_ours);
    sound_.seek(at);
    const double ours_v = volts_across(ours_, Piece::Kind::kCoil, coil);
    const double sound_v = volts_across(sound_, Piece::Kind::kCoil, coil);
    if (ours_v >= enough_ * sound_v) {
      explain_need(part, coil, at);
      return;
    }
    Link link = quantity_link(What::kVolts, at, part, {kCoilVolts, "V", ours_v, sound_v});
    link.text = telling().got_volts(part, ours_v, sound_v);
    add(std::move(link));
    explain_loss(part, coil, at, sound_v - ours_v);
  }

  /// The volts are there: it needs more than it did, or it is held by something else.
  void explain_need(PartId part, std::size_t coil, SimTime at) {
    const auto needs = [coil](const Session& s) {
      const circuit::Coil& c = s.circuit().network.coils[coil];
      return circuit::statics(c.magnet, c.armature, 0).pulls_in_a * c.resistance_ohm;
    };
    const double ours_v = needs(ours_);
    const double sound_v = needs(sound_);
    // Whoever needs less does not miss for that.
    const bool misses = !comparison_.first || comparison_.first->missing;
    if ((misses ? ours_v - sound_v : std::fabs(ours_v - sound_v)) > 0.01 * sound_v) {
      Link link = quantity_link(What::kNeed, at, part, {"volts to pull in", "V", ours_v, sound_v});
      link.text = telling().needs_volts(part, ours_v, sound_v);
      add(std::move(link));
    }
    add_root(part, at);
  }

  void explain_loss(PartId part, std::size_t coil, SimTime at, double lost_v) {
    const std::optional<Loss> worst = greatest_loss(ours_, sound_, coil);
    const bool nowhere = !worst || worst->more_v < 0.2 * lost_v;
    if (nowhere || (differs(part) && !differs(worst->part))) {
      add_root(part, at);
      return;
    }
    const PartId place = worst->part;
    const bool itself = differs(place);
    std::optional<Link> draw;
    if (!itself) draw = greatest_draw(ours_, sound_, roots_, at);
    // What sags a little under what draws too much only goes along.
    if (!draw || worst->more_v >= 0.5 * lost_v) add_drop(*worst, at);
    if (itself) add_root(place, at);
    if (!draw) return;
    const PartId drawer = draw->part;
    add(std::move(*draw));
    add_root(drawer, at);
  }

  void add_drop(const Loss& loss, SimTime at) {
    Link link = quantity_link(
        What::kDrop, at, loss.part,
        {loss.source ? "volts at the terminals" : "volts lost", "V", loss.ours_v, loss.sound_v});
    link.text = telling().lost(loss);
    add(std::move(link));
  }

  /// What told it, though nothing is seen to have made that tell.
  void add_root_of_signal(const Kept& told) {
    const auto input = static_cast<std::size_t>(told.event.kind - kSignalBase);
    if (told.event.kind < kSignalBase || told.event.kind >= kCommandBase) return;
    for (PartId p = 0; p < scene().parts.size(); ++p) {
      for (const auto& listeners : scene().parts[p].listeners) {
        const auto ear = std::make_pair(told.part, input);
        if (std::find(listeners.begin(), listeners.end(), ear) == listeners.end()) continue;
        if (add_root(p, told.event.at)) return;
      }
    }
  }

  bool differs(PartId part) const { return roots_.differs(part); }

  /// Returns whether something is behind it there, or where that part takes something from.
  bool add_root(PartId part, SimTime at) {
    ours_.seek(at);
    sound_.seek(at);
    std::optional<Link> root = roots_.behind(part, at);
    if (!root) return false;
    add(std::move(*root));
    return true;
  }

  Session& ours_;
  Session& sound_;
  const Comparison& comparison_;
  Roots roots_;
  std::vector<Kept> our_records_, sound_records_;
  std::set<EventId> gone_to_;
  double enough_ = 0.97;  ///< of what a sound one has: not for want of volts
  std::vector<Link> links_;
};

}  // namespace

std::vector<Link> chain_of_deed(Session& looked_at, Session& sound, const Comparison& comparison) {
  return Chain(looked_at, sound, comparison).find();
}

std::vector<Link> chain_of(Session& looked_at, Session& sound, const Comparison& comparison) {
  if (!comparison.first) return chain_of_readings(looked_at, sound, comparison);
  std::vector<Link> links = chain_of_deed(looked_at, sound, comparison);
  if (ends_at_root(links)) return links;
  // The deed hangs on something that nobody did: it may have shown before, in what one reads.
  const std::vector<Link> read = chain_of_readings(looked_at, sound, comparison);
  if (read.empty() || read.front().at > comparison.first->deed.at) return links;
  links.resize(std::min(links.size(), kMostLinks - read.size()));
  links.insert(links.end(), read.begin(), read.end());
  return links;
}

std::vector<Link> chain_behind(Session& looked_at, Session& sound, const Comparison& comparison,
                               const Behind& behind) {
  return Chain(looked_at, sound, comparison).find_behind(behind);
}

}  // namespace sixty::explain
