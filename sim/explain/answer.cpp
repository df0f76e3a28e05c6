#include "sim/explain/answer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "sim/base/units.hpp"
#include "sim/explain/chain.hpp"
#include "sim/explain/records.hpp"

namespace sixty::explain {
namespace {

constexpr SimTime kBeforeStart = -1;  // what hands do at once is to be seen too

/// From what happened back to its first cause within reach, then the other way round. Of what one
/// part did in a row, only the last stays.
std::vector<const Kept*> causes_of(const Kept& happened, const std::vector<Kept>& records) {
  std::vector<const Kept*> back = {&happened};
  for (const Kept* k = by_id(records, happened.event.cause); k != nullptr;
       k = by_id(records, k->event.cause)) {
    if (back.back()->part != k->part || back.size() == 1) back.push_back(k);
    if (k->event.cause == kSceneStart) break;
  }
  if (back.size() > kMostLinks) back.resize(kMostLinks);
  std::reverse(back.begin(), back.end());
  return back;
}

std::string conditions_text(const Kept& k) {
  std::string text;
  for (const Kept::Needed& c : k.conditions) {
    if (c.what == "volts at the coil") {
      text +=
          fmt::format("; it had {} at its coil and needs {}",
                      format_quantity(std::fabs(c.measured), "V"), format_quantity(c.needed, "V"));
    } else if (c.needed == 1 && c.met) {
      text += fmt::format("; {} was closed", c.what);
    }
  }
  return text;
}

Link link_of(const Kept& k, const Installation& scene) {
  Link link;
  link.at = k.event.at;
  link.part = k.part;
  link.text = fmt::format("{}: \"{}\" at {}{}.", scene.parts[k.part].name, k.kind,
                          format_weekday_time(scene.clock, k.event.at, 3), conditions_text(k));
  for (const Kept::Needed& c : k.conditions) {
    if (c.what != "volts at the coil") continue;
    link.quantity = c.what;
    link.unit = std::string("V");  // as a literal, g++ 12 warns of bounds that are none
    link.measured = c.measured;
    link.expected = c.needed;
  }
  return link;
}

const Kept* asked_for(const Question& q, const std::vector<Kept>& records) {
  const Kept* best = nullptr;
  for (const Kept& k : records) {
    if (k.part != q.part || k.kind != q.kind || !k.acted) continue;
    if (best == nullptr || std::abs(k.event.at - q.at) < std::abs(best->event.at - q.at)) best = &k;
  }
  return best;
}

constexpr SimTime kAbout = 30 * kSecond;  // people say the minute

}  // namespace

Answer answer_to(const Question& q, Session& looked_at, Session& sound) {
  Answer answer;
  const SimTime from = std::max<SimTime>(q.at - kAbout, 0);
  const std::vector<Kept> reach = records_of(looked_at, from, q.at + kAbout);
  if (const Kept* found = asked_for(q, reach)) {
    answer.kind = Answer::Kind::kHappened;
    answer.at = found->event.at;
    const std::vector<Kept> before =
        records_of(looked_at, std::max<SimTime>(answer.at - kBefore, 0), answer.at);
    const Kept* again = asked_for({q.kind, q.part, answer.at}, before);
    for (const Kept* k : causes_of(again != nullptr ? *again : *found, before))
      answer.links.push_back(link_of(*k, looked_at.installation()));
    return answer;
  }
  const std::vector<Kept> expected = records_of(sound, from, q.at + kAbout);
  const Kept* missing = asked_for(q, expected);
  if (missing == nullptr) return answer;
  answer.kind = Answer::Kind::kDidNot;
  answer.at = missing->event.at;
  looked_at.seek(kBeforeStart);
  sound.seek(kBeforeStart);
  Comparison comparison = compare(looked_at, sound, answer.at + kBehind, false);
  Difference asked;
  asked.missing = true;
  asked.deed.at = asked.deed.last = answer.at;
  asked.deed.part = q.part;
  asked.deed.event_kind = missing->event.kind;
  asked.deed.kind = missing->kind;
  comparison.first = asked;
  answer.links = chain_of(looked_at, sound, comparison);
  return answer;
}

}  // namespace sixty::explain
