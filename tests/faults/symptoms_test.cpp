// Each fault of the library, put into a scene that comes with the program: what the notes of the
// trade say is seen comes out of the physics, a sound installation does not show it, and a mild
// enough fault does not either. The notes are common practice, no source; where physics decides
// otherwise the row says so.
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "sim/base/clock_time.hpp"
#include "sim/scene/fault.hpp"
#include "tests/faults/observed_run.hpp"
#include "tests/faults/symptoms.hpp"

namespace sixty {
namespace {

class SymptomTest : public testing::TestWithParam<Symptom> {};

std::string with_severity(std::string fault, const char* severity) {
  const std::size_t comma = std::min(fault.find(','), fault.size());
  const std::size_t colon = fault.find(':');
  const std::size_t end = colon < comma ? colon : comma;
  return fault.substr(0, end) + ":" + severity + fault.substr(comma);
}

TEST_P(SymptomTest, IsSeenAndOnlyThen) {
  const Symptom& s = GetParam();
  const std::vector<std::string> set = split(s.set, ';');
  const auto sound = scene_with(s.scene, {}, set);
  ASSERT_NE(sound, nullptr);
  Diagnostic mistake;
  const SimTime end = parse_duration(s.span, mistake).value();
  const std::vector<std::string> halves = split(s.seen, '|');
  std::vector<Observation> symptoms, others;
  for (const std::string& text : split(halves.at(0), ';'))
    symptoms.push_back(parse_observation(text, *sound, end));
  for (const std::string& text : split(halves.at(1), ';'))
    others.push_back(parse_observation(text, *sound, end));
  std::vector<Observation> all = symptoms;
  all.insert(all.end(), others.begin(), others.end());
  const std::vector<double> healthy = look_at(sound, all);
  const std::vector<double> faulty = look_at(scene_with(s.scene, {s.fault}, set), all);
  for (std::size_t k = 0; k < all.size(); ++k) {
    EXPECT_TRUE(holds(all[k], faulty[k], healthy[k]))
        << all[k].reading << " " << all[k].op << ": " << faulty[k] << ", when sound " << healthy[k];
    if (k < symptoms.size()) {
      EXPECT_FALSE(holds(all[k], healthy[k], healthy[k]))
          << all[k].reading << ", when sound: " << healthy[k];
    }
  }
  if (s.whole) return;
  const std::vector<double> mild =
      look_at(scene_with(s.scene, {with_severity(s.fault, "0.002")}, set), symptoms);
  for (std::size_t k = 0; k < symptoms.size(); ++k) {
    EXPECT_FALSE(holds(symptoms[k], mild[k], healthy[k]))
        << symptoms[k].reading << ", of a mild fault: " << mild[k];
  }
}

std::string test_name(const testing::TestParamInfo<Symptom>& info) {
  std::string name = std::to_string(info.index) + "_" + info.param.fault;
  for (char& c : name) {
    if (std::isalnum(static_cast<unsigned char>(c)) == 0) c = '_';
  }
  return name;
}

INSTANTIATE_TEST_SUITE_P(Faults, SymptomTest, testing::ValuesIn(kSymptoms), test_name);

TEST(FaultLibraryTest, EveryFaultHasATestOfItsSymptoms) {
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const FaultBook book(all_parts(), mistakes);
  EXPECT_TRUE(diagnostics.empty()) << diagnostics.to_text();
  std::set<std::string> tested;
  for (const Symptom& s : kSymptoms) {
    const std::string fault = s.fault;
    const std::string id = fault.substr(0, fault.find('@'));
    const std::string part = fault.substr(id.size() + 1, fault.find_first_of(":,") - id.size() - 1);
    const auto scene = scene_with(s.scene, {});
    const PartInstance* found = scene->find(part);
    ASSERT_NE(found, nullptr) << part;
    const auto entry = book.find(id, *found->kind);
    ASSERT_NE(entry, nullptr) << fault;
    tested.insert(full_name(*entry) + " of " + entry->kind->name);
  }
  for (const auto& fault : book.all())
    EXPECT_EQ(tested.count(full_name(*fault) + " of " + fault->kind->name), 1u)
        << full_name(*fault) << " of " << fault->kind->name;
  EXPECT_GE(book.all().size(), 60u);
}

TEST(FaultLibraryTest, HasEveryNoteOfTheTrade) {
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const FaultBook book(all_parts(), mistakes);
  for (int n = 1; n <= 45; ++n) {
    const std::string id = fmt::format("F{:02}", n);
    const bool there = std::any_of(book.all().begin(), book.all().end(),
                                   [&](const auto& fault) { return goes_by(*fault, id); });
    EXPECT_TRUE(there) << id;
  }
}

}  // namespace
}  // namespace sixty
