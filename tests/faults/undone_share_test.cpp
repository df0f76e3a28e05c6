// Of all links of all chains, how many tell a cause: with it undone in a second run, the effect is
// another. Chains of faults are those of compare(), each fault in the smallest scene in which it
// strikes, some once more in a large one; the first link of such a chain is the effect itself.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <iostream>
#include <iterator>
#include <map>
#include <set>

#include "tests/faults/observed_run.hpp"
#include "tests/faults/school_faults.hpp"
#include "tests/faults/symptoms.hpp"
#include "tests/faults/undoings.hpp"

namespace sixty {
namespace {

using explain::Link;

constexpr double kLeastShare = 0.99;
constexpr const char* kLargest = "technical-school";
constexpr std::array kBySize{"bench-minimal", "dry-cell-mill", "corner-school", kLargest};
constexpr std::size_t kEachInLargest = 8;  ///< so many of its faults are passed over, less one

/// Links undone, and those that changed nothing.
class Share {
 public:
  void add(const std::string& fault, const Link& link, const Undoings::Outcome& outcome) {
    ++links_;
    ++kinds_[explain::name_of(link.what)].second;
    if (outcome.changed) {
      ++kinds_[explain::name_of(link.what)].first;
      return;
    }
    failed_ += fmt::format("{}: {}\n  undone by: {}\n", fault, link.text, outcome.tried);
    ++unchanged_;
  }

  std::size_t links() const { return links_; }
  double value() const {
    return static_cast<double>(links_ - unchanged_) / static_cast<double>(links_);
  }
  std::string text() const {
    std::string text = fmt::format("{} of {} links", links_ - unchanged_, links_);
    for (const auto& [kind, count] : kinds_)
      text += fmt::format(", {} {} of {}", kind, count.first, count.second);
    return text + "\n" + failed_;
  }

 private:
  std::size_t links_ = 0, unchanged_ = 0;
  std::map<std::string, std::pair<int, int>> kinds_;  ///< changed, all
  std::string failed_;
};

void undo_links_of(const Symptom& s, const std::vector<std::string>& hands, Share& share) {
  const Held held = held_against_sound({s.scene, s.fault, split(s.set, ';'), hands}, s.span);
  ASSERT_GE(held.chain.size(), 2u) << s.fault << " has no link to undo";
  Undoings undoings(held);
  for (std::size_t k = 1; k < held.chain.size(); ++k)
    share.add(s.fault, held.chain[k], undoings.undo(held.chain[k]));
}

std::string id_of(const Symptom& s) {
  const std::string fault = s.fault;
  return fault.substr(0, fault.find('@'));
}

/// Each fault's rows in the smallest scene that has one.
std::vector<Symptom> smallest_rows() {
  const auto size_of = [](const Symptom& s) {
    return std::find(kBySize.begin(), kBySize.end(), std::string(s.scene)) - kBySize.begin();
  };
  std::map<std::string, std::ptrdiff_t> least;
  for (const Symptom& s : kSymptoms) {
    const auto [known, is_new] = least.try_emplace(id_of(s), size_of(s));
    if (!is_new) known->second = std::min(known->second, size_of(s));
  }
  std::vector<Symptom> rows;
  std::copy_if(std::begin(kSymptoms), std::end(kSymptoms), std::back_inserter(rows),
               [&](const Symptom& s) { return size_of(s) == least.at(id_of(s)); });
  return rows;
}

/// Each scene by itself: of several that reach the share, all together do.
class UndoneShareTest : public testing::TestWithParam<const char*> {};

TEST_P(UndoneShareTest, OfLinksThatTellACauseIsNinetyNineInAHundred) {
  const std::string scene = GetParam();
  Share share;
  for (const Symptom& s : smallest_rows()) {
    if (s.scene == scene) undo_links_of(s, {}, share);
  }
  for (std::size_t k = 0; k < std::size(kSchoolFaults) && scene == kLargest; k += kEachInLargest) {
    const SchoolFault& f = kSchoolFaults[k];
    undo_links_of({f.fault, kLargest, f.span, ""}, split(f.hand, ';'), share);
  }
  std::cout << share.text();
  ASSERT_GT(share.links(), 0u);
  EXPECT_GE(share.value(), kLeastShare) << share.text();
}

INSTANTIATE_TEST_SUITE_P(Scenes, UndoneShareTest, testing::ValuesIn(kBySize), [](const auto& test) {
  std::string name = test.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

TEST(UndoneLinksTest, ReachesEveryFaultOfTheTableOfSymptoms) {
  std::set<std::string> all, reached;
  for (const Symptom& s : kSymptoms) all.insert(id_of(s));
  for (const Symptom& s : smallest_rows()) reached.insert(id_of(s));
  EXPECT_EQ(reached, all);
  for (const Symptom& s : smallest_rows()) {
    EXPECT_NE(std::find(kBySize.begin(), kBySize.end(), std::string(s.scene)), kBySize.end())
        << s.scene;
  }
}

}  // namespace
}  // namespace sixty
