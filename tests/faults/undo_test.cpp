// What a chain names as behind a deed is undone in a second run, by a jumper or by taking a wire
// off: the deed then goes otherwise. So links tell causes, and not what merely goes along.
#include <gtest/gtest.h>

#include <cmath>

#include "sim/base/clock_time.hpp"
#include "sim/explain/chain.hpp"
#include "sim/scene/hookup.hpp"
#include "tests/faults/observed_run.hpp"
#include "tests/faults/symptoms.hpp"

namespace sixty {
namespace {

using explain::Link;

constexpr double kJumperOhm = 1e-3, kOffOhm = 1e12;

/// The terminal of a part that has a node; empty if none has.
std::string terminal_at(const PartInstance& part, circuit::Node node) {
  for (const auto& [name, at] : part.nodes) {
    if (at == node) return name;
  }
  return "";
}

/// The two terminals between which a part conducts: its one contact's, or its first resistor's.
std::optional<Hookup> ends_of(const Installation& scene, PartId p) {
  const PartInstance& part = scene.parts[p];
  circuit::Node a = -1, b = -1;
  if (part.contacts.size() == 1) {
    const circuit::Contact& c =
        scene.network->contacts[static_cast<std::size_t>(part.contacts.front())];
    a = c.a, b = c.b;
  }
  const std::string first = a >= 0 ? terminal_at(part, a) : "a";
  const std::string second = b >= 0 ? terminal_at(part, b) : "b";
  if (part.nodes.count(first) == 0 || part.nodes.count(second) == 0) return std::nullopt;
  return Hookup{{p, first}, {p, second}};
}

/// What undoes a link by a wire; nothing where a wire can not.
std::optional<Hookup> undoing(const Link& link, const Installation& scene) {
  std::optional<Hookup> hookup;
  const bool too_open = link.what == Link::What::kContact && link.expected == 1;
  // Inside a winding nobody can lay a jumper.
  const bool loses = link.what == Link::What::kDrop && link.quantity == "volts lost" &&
                     scene.parts[link.part].coils.empty();
  if (too_open || loses) {
    hookup = ends_of(scene, link.part);
    if (hookup) hookup->resistance_ohm = kJumperOhm;
  } else if (link.what == Link::What::kContact || link.what == Link::What::kDraws) {
    hookup = ends_of(scene, link.part);
    if (!hookup) return hookup;
    hookup->in_series = true;
    hookup->resistance_ohm = kOffOhm;
  }
  return hookup;
}

class UndoTest : public testing::TestWithParam<Symptom> {};

TEST_P(UndoTest, ChangesTheEffect) {
  const Symptom& s = GetParam();
  const std::vector<std::string> set = split(s.set, ';');
  const auto faulty = scene_with(s.scene, {s.fault}, set);
  Session looked_at(faulty), sound(scene_with(s.scene, {}, set));
  Diagnostic mistake;
  const SimTime end = parse_duration(s.span, mistake).value();
  const explain::Comparison comparison = explain::compare(looked_at, sound, end, true);
  if (!comparison.first) return;  // nothing is done otherwise, only read
  const std::pair<PartId, std::string_view> effect{comparison.first->deed.part,
                                                   comparison.first->deed.kind};
  const SimTime until = std::min(end, comparison.first->deed.at + kMinute);
  for (const Link& link : explain::chain_of(looked_at, sound, comparison)) {
    const std::optional<Hookup> hookup = undoing(link, *faulty);
    if (!hookup) continue;
    Action lay;
    lay.hookup = std::make_shared<const Hookup>(*hookup);
    Session undone(faulty), as_it_was(faulty);
    ASSERT_TRUE(undone.act(lay));
    const explain::Comparison changed = explain::compare(undone, as_it_was, until, false);
    EXPECT_EQ(changed.tallies.count(effect), 1U) << link.text;
    RecordProperty("undone", link.text);
  }
}

std::string test_name(const testing::TestParamInfo<Symptom>& info) {
  std::string name = std::to_string(info.index) + "_" + info.param.fault;
  for (char& c : name) {
    if (std::isalnum(static_cast<unsigned char>(c)) == 0) c = '_';
  }
  return name;
}

INSTANTIATE_TEST_SUITE_P(Faults, UndoTest, testing::ValuesIn(kSymptoms), test_name);

}  // namespace
}  // namespace sixty
