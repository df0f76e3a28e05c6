#include "sim/explain/reading_chain.hpp"

#include <algorithm>

#include "sim/explain/chain.hpp"
#include "sim/explain/draws.hpp"
#include "sim/explain/records.hpp"
#include "sim/explain/roots.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::explain {
namespace {

const NamedDecl& reading_of(const OtherReading& other, const Installation& scene) {
  return scene.parts[other.part].kind->declaration.readings[other.reading];
}

Link link_of(const OtherReading& other, const Installation& scene) {
  const PartInstance& part = scene.parts[other.part];
  const NamedDecl& reading = reading_of(other, scene);
  Link link;
  link.what = Link::What::kReading;
  link.at = other.first;
  link.part = other.part;
  link.quantity = reading.name;
  link.unit = reading.unit;
  link.measured = other.ours;
  link.expected = other.sound;
  std::pair<std::string, std::string> texts = {value_text(other.ours, reading),
                                               value_text(other.sound, reading)};
  if (!reading.unit.empty()) texts = both_texts(other.ours, other.sound, reading.unit);
  link.text = say("{}: {} is {} at {}, {} when sound.", part.name, spoken_key(reading.name),
                  texts.first, when_text(scene, other.first), texts.second);
  return link;
}

/// What stands at that moment comes before what has been summed up until then.
std::vector<OtherReading> sums_last(std::vector<OtherReading> all, const Installation& scene) {
  std::stable_partition(all.begin(), all.end(),
                        [&](const OtherReading& o) { return !reading_of(o, scene).sums; });
  return all;
}

/// Drives of coils when sound, in a span and the minute before it: of each part the last one.
std::vector<Kept> drives(Session& sound, SimTime from, SimTime to) {
  std::vector<Kept> last;
  const std::vector<Kept> all = records_of(sound, std::max<SimTime>(from, 0), to);
  for (auto k = all.rbegin(); k != all.rend(); ++k) {
    const bool starts = k->located && k->happening.what == circuit::What::kStarts;
    const auto same = [&](const Kept& other) { return other.part == k->part; };
    if (starts && std::none_of(last.begin(), last.end(), same)) last.push_back(*k);
  }
  return last;
}

/// What draws more, or less, in one of these drives, and what is behind that.
std::vector<Link> behind_a_draw(Session& looked_at, Session& sound, const Roots& roots,
                                const std::vector<Kept>& drives) {
  constexpr SimTime kUnderWay = 300 * kMillisecond;  // currents have risen by then
  for (const Kept& k : drives) {
    const SimTime driven = k.event.at + kUnderWay;
    looked_at.seek(driven);
    sound.seek(driven);
    const std::optional<Link> draw = greatest_draw(looked_at, sound, roots, driven, true);
    if (!draw) continue;
    if (const auto root = roots.behind(draw->part, driven)) return {*draw, *root};
  }
  return {};
}

/// What one of these drives has lost on its way, and what is behind that.
std::vector<Link> behind_a_loss(Session& looked_at, Session& sound, const Comparison& comparison,
                                const std::vector<Kept>& drives) {
  for (const Kept& k : drives) {
    Comparison here = comparison;
    here.first = Difference{};
    here.first->deed.at = k.event.at;
    std::vector<Link> links =
        chain_behind(looked_at, sound, here, {k.part, k.event.at, k.event.at, k.happening.element});
    if (ends_at_root(links)) return links;
  }
  return {};
}

}  // namespace

std::vector<Link> chain_of_readings(Session& looked_at, Session& sound,
                                    const Comparison& comparison) {
  if (comparison.readings.empty()) return {};
  const Roots roots(looked_at, sound, comparison.hands);
  const Installation& scene = looked_at.installation();
  const std::vector<OtherReading> readings = sums_last(comparison.readings, scene);
  const OtherReading& first = readings.front();
  std::vector<Link> links = {link_of(first, scene)};
  for (const OtherReading& other : readings) {
    looked_at.seek(other.first);
    sound.seek(other.first);
    const std::optional<Link> root = roots.behind(other.part, other.first);
    if (!root) continue;
    if (&other != &first) links.push_back(link_of(other, scene));
    links.push_back(*root);
    return links;
  }
  const std::vector<Kept> driven =
      drives(sound, std::min(first.before, first.first - kBefore), first.first);
  std::vector<Link> behind = behind_a_draw(looked_at, sound, roots, driven);
  if (behind.empty()) behind = behind_a_loss(looked_at, sound, comparison, driven);
  links.insert(links.end(), behind.begin(), behind.end());
  if (behind.empty() && reading_of(first, scene).sums)
    links.front().text +=
        std::string(" ") +
        tr("Nothing but sums since the start differs; they do not say at which part.");
  return links;
}

}  // namespace sixty::explain
