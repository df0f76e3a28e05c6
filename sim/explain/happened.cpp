#include "sim/explain/happened.hpp"

#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include "sim/explain/telling.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::explain {
namespace {

constexpr SimTime kWithin = 30 * kSecond;  // a clock that goes wrong does the same, but not then
constexpr SimTime kOtherDelay = 2 * kMillisecond;
constexpr SimTime kOtherTime = 50 * kMillisecond;  // of a clock that gains or loses
constexpr double kOtherVolts = 0.03;               // of what a sound one has

const Kept::Needed* volts_of(const Kept* k) {
  if (k == nullptr) return nullptr;
  const auto found = std::find_if(k->conditions.begin(), k->conditions.end(),
                                  [](const Kept::Needed& c) { return c.what == kCoilVolts; });
  return found == k->conditions.end() ? nullptr : &*found;
}

/// The same beat of a clock that is a second behind is the one of the same number.
const Kept* same_number_in(const std::vector<Kept>& records, const Kept& k) {
  const auto found = std::find_if(records.begin(), records.end(), [&](const Kept& other) {
    return other.part == k.part && other.event.kind == k.event.kind && other.acted == k.acted &&
           other.event.number == k.event.number && std::abs(other.event.at - k.event.at) < kWithin;
  });
  return found == records.end() ? nullptr : &*found;
}

const Kept* same_in(const std::vector<Kept>& records, const Kept* k) {
  if (k == nullptr) return nullptr;
  if (k->event.number != 0) {
    if (const Kept* same = same_number_in(records, *k)) return same;
  }
  return nearest(records, k->part, k->event.kind, k->event.at, kWithin, k->acted);
}

/// The contacts that let a coil have its current.
std::vector<std::string> ways_of(const Kept& driven) {
  std::vector<std::string> ways;
  for (const Kept::Needed& c : driven.conditions) {
    if (c.what != kCoilVolts && c.needed == 1 && c.met) ways.push_back(spoken_condition(c.what));
  }
  return ways;
}

bool is_other(const Kept::Needed& volts, const Kept::Needed& twins) {
  return std::fabs(volts.measured - twins.measured) > kOtherVolts * std::fabs(twins.measured);
}

std::string volts_text(const Kept& driven, const Kept::Needed& volts, const Kept::Needed* twins) {
  const std::string stood = spoken_quantity(std::fabs(volts.measured), "V");
  const std::string needs = spoken_quantity(volts.needed, "V");
  const std::vector<std::string> ways = ways_of(driven);
  std::string text = ways.empty() ? say("; {} stood at its coil, and it needs {}", stood, needs)
                                  : say("; {} stood at its coil, through {}, and it needs {}",
                                        stood, fmt::to_string(fmt::join(ways, ", ")), needs);
  if (twins != nullptr && is_other(volts, *twins))
    text += say(" (a sound one had {})", spoken_quantity(std::fabs(twins->measured), "V"));
  return text;
}

}  // namespace

HappenedChain::HappenedChain(const Kept& happened, const std::vector<Kept>& ours,
                             const std::vector<Kept>& sound) {
  for (const Kept* k = &happened; k != nullptr; k = by_id(ours, k->event.cause)) {
    if (causes_.empty() || causes_.back().event->part != k->part) causes_.push_back({k});
    if (volts_of(k) != nullptr && causes_.back().driven == nullptr) causes_.back().driven = k;
    if (k->event.cause == kSceneStart) break;
  }
  std::reverse(causes_.begin(), causes_.end());
  for (Cause& c : causes_) {
    c.twin = same_in(sound, c.event);
    c.twin_driven = same_in(sound, c.driven);
  }
}

std::optional<SimTime> HappenedChain::delay(std::size_t cause) const {
  if (cause == 0) return std::nullopt;
  return causes_[cause].event->event.at - causes_[cause - 1].event->event.at;
}

std::optional<SimTime> HappenedChain::twins_delay(std::size_t cause) const {
  if (cause == 0 || causes_[cause].twin == nullptr || causes_[cause - 1].twin == nullptr)
    return std::nullopt;
  const SimTime delay = causes_[cause].twin->event.at - causes_[cause - 1].twin->event.at;
  if (delay < 0) return std::nullopt;  // what comes before its cause is another one's
  return delay;
}

std::optional<SimTime> HappenedChain::shift(std::size_t cause) const {
  const Cause& c = causes_[cause];
  if (c.twin == nullptr || std::abs(c.event->event.at - c.twin->event.at) <= kOtherTime)
    return std::nullopt;
  return c.event->event.at - c.twin->event.at;
}

/// Not so where it makes good for another delay before it.
bool HappenedChain::has_other_delay(std::size_t cause) const {
  const auto sound = twins_delay(cause);
  const auto apart = [](SimTime a, SimTime b) { return std::abs(a - b) > kOtherDelay; };
  return sound && apart(*delay(cause), *sound) &&
         apart(causes_[cause].event->event.at, causes_[cause].twin->event.at);
}

bool HappenedChain::differs(std::size_t cause, const Installation& scene) const {
  const Cause& c = causes_[cause];
  if (c.twin == nullptr) return true;
  // What comes at another time because it hangs on something that does is no different itself.
  const auto late = shift(cause);
  const SimTime before = cause > 0 ? shift(cause - 1).value_or(0) : 0;
  if (late && std::abs(*late - before) > kOtherTime &&
      scene.parts[c.event->part].kind->declaration.is_step(c.event->event.kind))
    return true;
  if (has_other_delay(cause)) return true;
  const Kept::Needed* volts = volts_of(c.driven);
  const Kept::Needed* twins = volts_of(c.twin_driven);
  return volts != nullptr && twins != nullptr && is_other(*volts, *twins);
}

std::optional<Behind> HappenedChain::first_that_differs(const Installation& scene) const {
  for (std::size_t k = 0; k < causes_.size(); ++k) {
    if (!differs(k, scene)) continue;
    const Cause& c = causes_[k];
    Behind behind{c.event->part, c.event->event.at, c.event->event.at, -1};
    if (c.driven != nullptr && c.twin_driven != nullptr)
      behind = {c.driven->part, c.driven->event.at, c.twin_driven->event.at,
                c.driven->happening.element};
    return behind;
  }
  return std::nullopt;
}

std::vector<std::size_t> HappenedChain::chosen(std::size_t most, const Installation& scene) const {
  std::vector<std::size_t> order = {causes_.size() - 1};
  const auto take = [&](std::size_t k) {
    if (std::find(order.begin(), order.end(), k) == order.end()) order.push_back(k);
  };
  for (std::size_t k = 0; k < causes_.size(); ++k) {
    if (differs(k, scene)) take(k);
  }
  for (std::size_t k = causes_.size(); k-- > 0;) take(k);
  order.resize(std::min(order.size(), most));
  std::sort(order.begin(), order.end());
  return order;
}

std::optional<HappenedChain::Since> HappenedChain::since(std::optional<std::size_t> told,
                                                         std::size_t cause) const {
  if (!told) return std::nullopt;
  const Cause& from = causes_[*told];
  const Cause& c = causes_[cause];
  Since since{*told, c.event->event.at - from.event->event.at, std::nullopt};
  if (c.twin == nullptr || from.twin == nullptr) return since;
  const SimTime sound = c.twin->event.at - from.twin->event.at;
  const bool is_other = std::abs(sound - since.delay) > kOtherDelay &&
                        std::abs(c.event->event.at - c.twin->event.at) > kOtherDelay;
  if (sound >= 0 && is_other) since.when_sound = sound;
  return since;
}

std::string HappenedChain::text_of(std::size_t cause, std::optional<std::size_t> told,
                                   const Installation& scene) const {
  const Cause& c = causes_[cause];
  const PartInstance& part = scene.parts[c.event->part];
  std::string text = say("{}, {}: {}", spoken_instant(scene.clock, c.event->event.at), part.name,
                         part.kind->declaration.meaning_of(c.event->kind));
  const std::optional<Since> after = since(told, cause);
  if (after && after->delay > 0)
    text += say(", {} after {}", spoken_quantity(to_seconds(after->delay), "s"),
                scene.parts[causes_[after->cause].event->part].name);
  if (after && after->when_sound)
    text += say(" ({} when sound)", spoken_quantity(to_seconds(*after->when_sound), "s"));
  if (const Kept::Needed* volts = volts_of(c.driven))
    text += volts_text(*c.driven, *volts, volts_of(c.twin_driven));
  if (const auto late = shift(cause); late && cause + 1 == causes_.size()) {
    const std::string by = spoken_quantity(to_seconds(std::abs(*late)), "s");
    text += *late > 0 ? say("; a sound one has it {} earlier", by)
                      : say("; a sound one has it {} later", by);
  }
  return text + (c.twin == nullptr ? tr("; a sound installation has it not.") : ".");
}

Link HappenedChain::link_of(std::size_t cause, std::optional<std::size_t> told,
                            const Installation& scene) const {
  const Cause& c = causes_[cause];
  Link link;
  link.at = c.event->event.at;
  link.part = c.event->part;
  link.text = text_of(cause, told, scene);
  if (const Kept::Needed* volts = volts_of(c.driven)) {
    link.quantity = kCoilVolts;
    link.unit = std::string("V");  // as a literal, g++ 12 warns of bounds that are none
    link.measured = volts->measured;
    link.expected = volts->needed;
  } else if (const auto after = since(told, cause)) {
    link.quantity = std::string("delay");
    link.unit = std::string("s");
    link.measured = to_seconds(after->delay);
    link.expected = to_seconds(after->when_sound.value_or(after->delay));
  }
  return link;
}

std::vector<Link> HappenedChain::links(const Installation& scene, std::vector<Link> behind) const {
  constexpr std::size_t kLeast = 2;  // of what happened itself
  if (behind.size() > kMostLinks - kLeast)
    behind.erase(behind.begin(), behind.end() - static_cast<std::ptrdiff_t>(kMostLinks - kLeast));
  std::reverse(behind.begin(), behind.end());
  std::optional<std::size_t> told;
  for (const std::size_t k : chosen(kMostLinks - behind.size(), scene)) {
    behind.push_back(link_of(k, told, scene));
    told = k;
  }
  return behind;
}

}  // namespace sixty::explain
