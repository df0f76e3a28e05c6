// A scene with a fault is held against a sound one: the chain behind the first deed that differs
// or, where all is done alike, behind the first reading, ends at the part that has the fault, at
// one of the values that the fault changes or at what a hand did there. Whoever finds it sees
// traces, states and values only.
#include <gtest/gtest.h>

#include "sim/scene/injection.hpp"
#include "tests/faults/observed_run.hpp"
#include "tests/faults/school_faults.hpp"
#include "tests/faults/symptoms.hpp"
#include "tests/faults/undoings.hpp"

namespace sixty {
namespace {

using explain::Link;

void expect_root_is_the_faulty_part(const Symptom& s, const std::vector<std::string>& hands = {}) {
  const Held held = held_against_sound({s.scene, s.fault, split(s.set, ';'), hands}, s.span);
  ASSERT_TRUE(held.comparison.first || !held.comparison.readings.empty()) << "no difference";
  const std::vector<Link>& chain = held.chain;
  std::string text;
  for (const Link& link : chain) text += link.text + "\n";
  const Fault* fault = nullptr;
  PartId part = 0;
  for (const Action& action : held.faulty->script) {
    if (action.fault == nullptr) continue;
    fault = action.fault->fault.get();
    part = action.part;
  }
  ASSERT_NE(fault, nullptr);
  ASSERT_FALSE(chain.empty());
  EXPECT_LE(chain.size(), 5u);
  EXPECT_EQ(held.faulty->parts[chain.back().part].name, held.faulty->parts[part].name) << text;
  Undoings undoings(held);
  for (std::size_t k = 1; k < chain.size(); ++k) {
    const Undoings::Outcome outcome = undoings.undo(chain[k]);
    EXPECT_TRUE(outcome.changed) << chain[k].text << "\n  undone by: " << outcome.tried;
  }
  if (chain.back().what == Link::What::kHand) {
    EXPECT_FALSE(fault->acts.empty()) << text;
    return;
  }
  EXPECT_EQ(chain.back().what, Link::What::kValue) << text;
  bool is_changed = false;
  for (const FaultChange& c : fault->changes)
    is_changed =
        is_changed || fault->kind->declaration.params[c.param].name == chain.back().quantity;
  EXPECT_TRUE(is_changed) << text;
}

class RootTest : public testing::TestWithParam<Symptom> {};

TEST_P(RootTest, IsTheFaultyPart) { expect_root_is_the_faulty_part(GetParam()); }

class SchoolRootTest : public testing::TestWithParam<SchoolFault> {};

TEST_P(SchoolRootTest, IsTheFaultyPart) {
  const SchoolFault& f = GetParam();
  expect_root_is_the_faulty_part({f.fault, "technical-school", f.span, ""}, split(f.hand, ';'));
}

std::string test_name(std::size_t row, const char* fault) {
  std::string name = std::to_string(row) + "_" + fault;
  for (char& c : name) {
    if (std::isalnum(static_cast<unsigned char>(c)) == 0) c = '_';
  }
  return name;
}

INSTANTIATE_TEST_SUITE_P(Faults, RootTest, testing::ValuesIn(kSymptoms),
                         [](const auto& test) { return test_name(test.index, test.param.fault); });
INSTANTIATE_TEST_SUITE_P(Faults, SchoolRootTest, testing::ValuesIn(kSchoolFaults),
                         [](const auto& test) { return test_name(test.index, test.param.fault); });

}  // namespace
}  // namespace sixty
