#include "sim/explain/reading_chain.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/explain/draws.hpp"
#include "sim/explain/records.hpp"
#include "sim/explain/roots.hpp"

namespace sixty::explain {
namespace {

Link link_of(const OtherReading& other, const Installation& scene) {
  const PartInstance& part = scene.parts[other.part];
  const NamedDecl& reading = part.kind->declaration.readings[other.reading];
  Link link;
  link.what = Link::What::kReading;
  link.at = other.first;
  link.part = other.part;
  link.quantity = reading.name;
  link.unit = reading.unit;
  link.measured = other.ours;
  link.expected = other.sound;
  link.text = fmt::format("{}: {} is {} at {}, {} when sound.", part.name, reading.name,
                          value_text(other.ours, reading), when_text(scene, other.first),
                          value_text(other.sound, reading));
  return link;
}

/// What draws more, or less, in the minute before an instant, and what is behind that.
std::vector<Link> behind_a_draw(Session& looked_at, Session& sound, const Roots& roots,
                                SimTime at) {
  constexpr SimTime kUnderWay = 300 * kMillisecond;  // currents have risen by then
  for (const Kept& k : records_of(sound, std::max<SimTime>(at - kBefore, 0), at)) {
    if (!k.located || k.happening.what != circuit::What::kStarts) continue;
    const SimTime driven = k.event.at + kUnderWay;
    looked_at.seek(driven);
    sound.seek(driven);
    const std::optional<Link> draw = greatest_draw(looked_at, sound, roots, driven, true);
    if (!draw) continue;
    if (const auto root = roots.behind(draw->part, driven)) return {*draw, *root};
  }
  return {};
}

}  // namespace

std::vector<Link> chain_of_readings(Session& looked_at, Session& sound,
                                    const Comparison& comparison) {
  if (comparison.readings.empty()) return {};
  const Roots roots(looked_at, sound, comparison.hands);
  const OtherReading& first = comparison.readings.front();
  std::vector<Link> links = {link_of(first, looked_at.installation())};
  for (const OtherReading& other : comparison.readings) {
    looked_at.seek(other.first);
    sound.seek(other.first);
    const std::optional<Link> root = roots.behind(other.part, other.first);
    if (!root) continue;
    if (&other != &first) links.push_back(link_of(other, looked_at.installation()));
    links.push_back(*root);
    return links;
  }
  const std::vector<Link> draw = behind_a_draw(looked_at, sound, roots, first.first);
  links.insert(links.end(), draw.begin(), draw.end());
  return links;
}

}  // namespace sixty::explain
