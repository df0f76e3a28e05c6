#include "sim/explain/answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>

#include "sim/explain/chain.hpp"
#include "sim/explain/happened.hpp"
#include "sim/explain/records.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::explain {
namespace {

constexpr SimTime kBeforeStart = -1;  // what hands do at once is to be seen too

/// The event nearest to an instant, or nullptr.
const Kept* find(const Asked& asked, SimTime at, const std::vector<Kept>& records) {
  const auto is_meant = [&](const Kept& k) {
    // That a coil was driven in vain is something that happens.
    const bool happened = k.acted || (k.located && k.happening.what == circuit::What::kHeld);
    return k.part == asked.part && happened &&
           std::find(asked.kinds.begin(), asked.kinds.end(), k.kind) != asked.kinds.end();
  };
  const Kept* best = nullptr;
  for (const Kept& k : records) {
    if (!is_meant(k)) continue;
    if (best == nullptr || std::abs(k.event.at - at) < std::abs(best->event.at - at)) best = &k;
  }
  return best;
}

/// What is asked about, in both runs.
struct Found {
  Asked asked;
  const Kept* ours = nullptr;
  const Kept* sound = nullptr;

  bool is_missing() const { return ours == nullptr && sound != nullptr; }
  bool is_extra() const { return ours != nullptr && sound == nullptr; }
  const Kept& event() const { return ours != nullptr ? *ours : *sound; }
  SimTime at() const { return event().event.at; }
};

/// What a person wants to hear of first: what is missing, else what is too much, else what came
/// first; nullptr if nothing is found.
const Found* most_telling(const std::vector<Found>& all) {
  const auto rank = [](const Found& f) { return f.is_missing() ? 0 : f.is_extra() ? 1 : 2; };
  const Found* best = nullptr;
  for (const Found& f : all) {
    if (f.ours == nullptr && f.sound == nullptr) continue;
    if (best == nullptr || rank(f) < rank(*best) || (rank(f) == rank(*best) && f.at() < best->at()))
      best = &f;
  }
  return best;
}

Comparison compare_up_to(const Found& found, Session& looked_at, Session& sound,
                         const HasCome& has_come) {
  looked_at.seek(kBeforeStart);
  sound.seek(kBeforeStart);
  return compare(looked_at, sound, found.at() + kBehind, false, has_come);
}

/// The same, told from what is asked about.
Comparison told_from(const Found& found, Comparison comparison) {
  const Kept& event = found.event();
  Difference asked;
  asked.missing = found.is_missing();
  asked.deed.at = asked.deed.last = event.event.at;
  asked.deed.part = event.part;
  asked.deed.acted = event.acted;
  asked.deed.event_kind = event.event.kind;
  asked.deed.kind = event.kind;
  comparison.first = asked;
  return comparison;
}

std::vector<Link> why_happened(const Found& found, Session& looked_at, Session& sound,
                               const HasCome& has_come) {
  const SimTime at = found.ours->event.at;
  const SimTime from = std::max<SimTime>(std::min(at, found.sound->event.at) - kBefore, 0);
  const BothRecords before(looked_at, sound, from, std::max(at, found.sound->event.at) + kSame);
  const HappenedChain chain(*find(found.asked, at, before.ours), before.ours, before.sound);
  std::vector<Link> behind;
  if (const auto other = chain.first_that_differs(looked_at.installation())) {
    const Comparison comparison =
        told_from(found, compare_up_to(found, looked_at, sound, has_come));
    behind = chain_behind(looked_at, sound, comparison, *other);
  }
  return chain.links(looked_at.installation(), std::move(behind));
}

/// Of what only one of both runs has. Where all has gone wrong long before, as when the pendulum
/// has come to a stand, it is told from the first thing that went otherwise.
std::vector<Link> why_otherwise(const Found& found, Session& looked_at, Session& sound,
                                const HasCome& has_come) {
  const Comparison all = compare_up_to(found, looked_at, sound, has_come);
  const Comparison asked = told_from(found, all);
  std::vector<Link> links = chain_of_deed(looked_at, sound, asked);
  if (ends_at_root(links)) return links;
  if (!all.first || all.first->deed.at >= found.at()) return chain_of(looked_at, sound, asked);
  std::vector<Link> first = chain_of(looked_at, sound, all);
  if (first.size() >= kMostLinks) first.erase(first.begin() + 1);
  links.resize(1);
  links.insert(links.end(), first.begin(), first.end());
  return links;
}

}  // namespace

Answer answer_to(const Question& q, Session& looked_at, Session& sound, const HasCome& has_come) {
  Answer answer;
  answer.part = q.any.front().part;
  answer.event_kind = q.any.front().kinds.front();
  run_both(looked_at, sound, q.from - 1, has_come);
  const BothRecords reach(looked_at, sound, q.from, q.to);
  std::vector<Found> all;
  for (const Asked& asked : q.any) {
    all.push_back({asked, find(asked, q.at, reach.ours), find(asked, q.at, reach.sound)});
    answer.did += all.back().ours != nullptr ? 1 : 0;
    answer.expected += all.back().sound != nullptr ? 1 : 0;
  }
  const Found* found = most_telling(all);
  if (found == nullptr) return answer;
  answer.part = found->asked.part;
  answer.event_kind = found->event().kind;
  answer.at = found->at();
  if (found->is_missing() || found->is_extra()) {
    answer.kind = found->is_missing() ? Answer::Kind::kDidNot : Answer::Kind::kUnexpected;
    answer.links = why_otherwise(*found, looked_at, sound, has_come);
  } else {
    answer.kind = Answer::Kind::kHappened;
    answer.links = why_happened(*found, looked_at, sound, has_come);
  }
  return answer;
}

std::string headline(const Answer& answer, const Question& q, const Installation& scene) {
  // In quotation marks, as it may be asked.
  const std::string what =
      fmt::format("\"{} {}\"", spoken_key(answer.event_kind), scene.parts[answer.part].name);
  const std::string when = spoken_instant(scene.clock, answer.at);
  std::string text;
  switch (answer.kind) {
    case Answer::Kind::kHappened:
      text = say("{} happened at {}, because of this.", what, when);
      break;
    case Answer::Kind::kUnexpected:
      text = say("{} happened at {}, which a sound installation does not have.", what, when);
      break;
    case Answer::Kind::kDidNot:
      text = say("{} did not happen; a sound installation has it at {}.", what, when);
      break;
    case Answer::Kind::kNeverExpected:
      text = say("{} did not happen from {} to {}, nor would it in a sound installation.", what,
                 spoken_instant(scene.clock, q.from, 0), spoken_instant(scene.clock, q.to, 0));
      break;
  }
  const bool of_one_part = std::all_of(q.any.begin(), q.any.end(), [&](const Asked& asked) {
    return asked.part == q.any.front().part;
  });
  if (of_one_part) return text;
  return text + " " +
         say("Of {} asked about, {} did so, and {} in a sound installation.", q.any.size(),
             answer.did, answer.expected);
}

}  // namespace sixty::explain
