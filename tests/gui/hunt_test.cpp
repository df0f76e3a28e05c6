// The fault hunt: its notes, and its panel worked with real presses and keys.
#include <gmock/gmock.h>
#include <imgui/imgui.h>
#include <imgui/imgui_internal.h>

#include <algorithm>
#include <chrono>
#include <thread>

#include "models/part_list.hpp"
#include "sim/diagnose/shelf.hpp"
#include "tests/cli/folder.hpp"
#include "tests/gui/worked_window.hpp"

namespace sixty::gui {
namespace {

using diagnose::Observation;

constexpr int kNext = 228, kKnown = 298;  // pixels: middles of tabs

/// A library of few and short runs.
HuntOptions quick() {
  HuntOptions hunt;
  hunt.cache = testing::TempDir();
  hunt.watch = kDay;
  hunt.runs = 1;
  hunt.sound = 2;
  return hunt;
}

class Hunt : public WorkedWindow {
 protected:
  /// Makes the library, or finds that another test has made it: sooner than the window does, which
  /// draws all the while.
  static void SetUpTestSuite() {
    static const Registry registry = models::registry();  // signs point into it
    Diagnostics diagnostics;
    Mistakes mistakes(diagnostics);
    const diagnose::Books books(registry, mistakes);
    const HuntOptions hunt = quick();
    diagnose::LibraryPlan plan;
    plan.path = std::string(SIXTY_SOURCE_DIR) + "/scenes/bench-minimal.yaml";
    plan.until = hunt.watch;
    plan.runs = hunt.runs;
    plan.sound = hunt.sound;
    const auto library =
        diagnose::open_library(plan, registry, books.signs, books.faults, diagnostics);
    ASSERT_NE(library, nullptr) << diagnostics.to_text();
    const diagnose::Shelf shelf(hunt.cache);
    if (shelf.find(*library, plan)) return;
    diagnose::find_usual(*library, plan, registry);
    diagnose::fill_library(*library, plan, {});
    std::string error;
    ASSERT_TRUE(shelf.keep(*library, plan, error)) << error;
  }

  void SetUp() override {
    WorkedWindow::SetUp();
    options_.hunt = quick();
  }

  const HuntPanel& hunt() { return window().hunt(); }
  /// As until(), but for runs of the installation, which take many frames.
  void until_known(const std::function<bool()>& is_so) {
    for (int k = 0; k < 100'000 && !HasFailure() && !is_so(); ++k) window().step();
    EXPECT_TRUE(is_so());
  }
  void open() {
    window();
    typed("key f");
    until_known([&] { return hunt().told().stage == Hunter::Stage::kReady; });
  }
  void tell(const std::string& words) {
    const std::size_t before = hunt().notes().entries().size();
    until([] { return ImGui::GetIO().WantTextInput; });  // the field for words has the keys
    typed("type '" + words + "'");
    typed("key Return");
    typed("key Return");
    until([&] { return hunt().notes().entries().size() == before + 1; });
    until_known([&] {
      return hunt().told().verdict != nullptr && hunt().told().verdict->has_next &&
             hunt().told().verdict->observations.size() == before + 1;
    });
  }

  /// Turns to the page whose tab is there. Units: pixels. Order: the library is ready.
  void turn_to_page(int tab_x) {
    typed("mousemove " + std::to_string(tab_x) + " 115");
    typed("click 1");
  }
};

TEST_F(Hunt, WhatIsTypedIsRankedMarkedAndTakenBack) {
  open();
  tell("clocks stopped");
  const Hunter::Verdict& verdict = *hunt().told().verdict;
  ASSERT_EQ(verdict.observations.size(), 1u);
  EXPECT_EQ(verdict.observations[0].sign, "stands");
  ASSERT_FALSE(hunt().marks().empty());
  const diagnose::Ranked& first = verdict.ranking.ranked.front();
  EXPECT_EQ(hunt().marks().front().part, hunt().told().library->suspects[first.suspect].part);
  EXPECT_EQ(hunt().marks().front().place, 1u);
  EXPECT_TRUE(verdict.has_next);
  ASSERT_TRUE(press("/page", {"Undo"}));
  until([&] { return hunt().notes().entries().empty() && hunt().told().verdict == nullptr; });
  EXPECT_TRUE(hunt().marks().empty());
}

TEST_F(Hunt, AHiddenFaultIsReportedAndLookedFor) {
  options_.changes.fault = {"F42@bell:1"};
  window();
  typed("key x");
  open();
  until([] { return ImGui::GetIO().WantTextInput; });
  typed("key Escape");  // the field lets the keys go
  ASSERT_EQ(hidden_faults(window().bench()).size(), 1u);
  ASSERT_TRUE(press("/page", {"What people report"}));
  until_known(
      [&] { return !hunt().notes().entries().empty() && hunt().told().verdict != nullptr; });
  until_known([&] { return hunt().told().verdict->has_next && !hunt().is_busy(); });
  for (const Observation& one : hunt().notes().all()) EXPECT_FALSE(one.checked);
  ASSERT_FALSE(hunt().told().verdict->checks.empty());
  turn_to_page(kNext);
  const std::size_t before = hunt().notes().entries().size();
  const diagnose::Proposal first = hunt().told().verdict->questions.empty()
                                       ? hunt().told().verdict->checks.front()
                                       : hunt().told().verdict->questions.front();
  ASSERT_TRUE(press("/page", {proposal_key(first), first.check->asks ? "Ask" : "Do it"}));
  until_known([&] { return hunt().notes().entries().size() == before + 1; });
  const HuntNotes::Observations& found = hunt().notes().entries().back().observations;
  ASSERT_FALSE(found.empty());
  for (const Observation& one : found) {
    EXPECT_EQ(one.checked, !first.check->asks);
    for (const std::size_t k : one.which) EXPECT_THAT(first.signs, testing::Contains(k));
  }
}

TEST_F(Hunt, ThePartThatIsSelectedIsAskedAbout) {
  hand(to_handle("ring_key") + " click 3");
  until([&] { return window().bench().look().selected == part("ring_key"); });
  ASSERT_TRUE(press("card", {"What is wrong?"}, 110));
  until([&] { return hunt().is_open() && hunt().told().form != nullptr; });
}

TEST_F(Hunt, EscEndsItAndWhatWasToldIsThereAgain) {
  open();
  tell("clocks stopped");
  until([] { return ImGui::GetIO().WantTextInput; });
  typed("key Escape");
  typed("key Escape");
  until([&] { return !hunt().is_open(); });
  EXPECT_TRUE(hunt().marks().empty());
  typed("key f");
  until([&] { return hunt().is_open(); });
  EXPECT_EQ(hunt().notes().entries().size(), 1u);
  EXPECT_FALSE(hunt().marks().empty());
}

TEST_F(Hunt, ClosedBeforeItIsReadyItGivesUp) {
  const std::string empty = testing::TempDir() + "hunt-nothing-kept";
  std::filesystem::remove_all(empty);
  options_.hunt.cache = empty;
  options_.hunt.runs = 2400;
  window();
  typed("key f");
  until_known([] { return ImGui::GetIO().WantTextInput; });
  EXPECT_NE(hunt().told().form, nullptr);
  typed("key Escape");
  typed("key Escape");
  until([&] { return !hunt().is_open() && !hunt().is_busy(); });
  EXPECT_EQ(hunt().told().library, nullptr);
  EXPECT_TRUE(std::filesystem::is_empty(empty + "/sixtybeats"));
  std::filesystem::remove_all(empty);
}

TEST_F(Hunt, WhatIsKnownBeforehandIsTypedAndWeighed) {
  open();
  tell("clocks stopped");
  const auto before = hunt().told().verdict;
  until([] { return ImGui::GetIO().WantTextInput; });
  typed("key Escape");
  turn_to_page(kKnown);
  ASSERT_TRUE(press("/page", {"##age"}, 150));
  until([] { return ImGui::GetIO().WantTextInput; });
  typed("type '90 years'");
  typed("key Return");
  until([&] { return hunt().notes().known().age == "90 years"; });
  until_known([&] {
    const auto& verdict = hunt().told().verdict;
    return verdict != nullptr && verdict != before && verdict->has_next;
  });
  EXPECT_NE(hunt().told().verdict->observations.front().known, nullptr);
  EXPECT_NE(hunt().told().verdict->ranking.ranked.front().probability,
            before->ranking.ranked.front().probability);
}

TEST(HunterTest, WhatWasAskedIsWeighedProvisionallyWhileRunsAreMade) {
  const Registry registry = models::registry();
  const std::string empty = testing::TempDir() + "hunter-nothing-kept";
  std::filesystem::remove_all(empty);
  diagnose::LibraryPlan plan;
  plan.path = std::string(SIXTY_SOURCE_DIR) + "/scenes/bench-minimal.yaml";
  plan.until = kDay;
  plan.runs = 1;
  plan.sound = 2;
  Hunter hunter(registry, plan, empty);
  while (hunter.told().form == nullptr) std::this_thread::yield();
  const auto form = hunter.told().form;
  const auto found = form->search.find("clocks stopped", 1).at(0);
  hunter.weigh({diagnose::observation_at(found.place, found.which, form->signs)});
  bool was_provisional = false;
  while (hunter.told().stage != Hunter::Stage::kReady) {
    const auto verdict = hunter.told().verdict;
    if (verdict != nullptr && verdict->provisional) {
      EXPECT_FALSE(verdict->ranking.ranked.empty());
      was_provisional = true;
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(1));
  }
  EXPECT_TRUE(was_provisional);
  hunter.wait();
  ASSERT_NE(hunter.told().verdict, nullptr);
  EXPECT_FALSE(hunter.told().verdict->provisional);
  EXPECT_TRUE(hunter.told().verdict->has_next);
  std::filesystem::remove_all(empty);
}

/// Without a window: what the form makes of what is filled in, and files of notes.
class HuntNotesTest : public cli::FolderTest {
 protected:
  void SetUp() override {
    cli::FolderTest::SetUp();
    const auto scene =
        load_scene(SIXTY_SOURCE_DIR "/scenes/technical-school.yaml", registry_, {}, diagnostics_);
    const auto signs = diagnose::signs_of(*scene, book_);
    form_.reset(
        new Hunter::Form{scene, signs, {}, diagnose::SignSearch(*scene, signs), {}, {}, {}});
  }
  HuntDraft draft(const std::string& words) const {
    HuntDraft draft;
    draft.told = form_->search.find(words, 1).at(0);
    return draft;
  }
  std::optional<Observation> read(const HuntDraft& draft) {
    told_ = Diagnostics();
    return observation_of(draft, *form_, told_);
  }

  Registry registry_ = models::registry();
  Diagnostics diagnostics_, told_;
  Mistakes mistakes_{diagnostics_};
  diagnose::SignBook book_{registry_, mistakes_};
  std::unique_ptr<Hunter::Form> form_;
};

TEST_F(HuntNotesTest, AmountsAnswersAndHalfDaysAreTakenAsWritten) {
  HuntDraft slow = draft("upstairs clocks slow");
  slow.measure = "about";
  slow.amount = "5";
  slow.span = 2;
  slow.only_some = true;
  const auto one = read(slow);
  ASSERT_TRUE(one) << told_.to_text();
  EXPECT_EQ(one->how, Observation::How::kAbout);
  EXPECT_EQ(one->span, 2u);
  EXPECT_FALSE(one->all);
  EXPECT_EQ(one->which, slow.told.which);
  slow.answer = "no";
  EXPECT_EQ(read(slow)->how, Observation::How::kNot);
  slow.answer = "not looked at";
  EXPECT_EQ(read(slow)->how, Observation::How::kUnseen);
}

TEST_F(HuntNotesTest, WhatIsNoAmountIsToldWithAWayToMendIt) {
  HuntDraft slow = draft("upstairs clocks slow");
  slow.measure = "about";
  for (const char* wrong : {"", "much", "5 ohm", "5}", "5, answer: no", "-3", "\"5\"", "1e99"}) {
    slow.amount = wrong;
    EXPECT_FALSE(read(slow)) << wrong;
    EXPECT_FALSE(told_.empty()) << wrong;
  }
}

TEST_F(HuntNotesTest, WhatIsKnownBeforehandIsKeptWithThemAndTakenBack) {
  HuntNotes notes;
  notes.add({"", {*read(draft("upstairs clocks slow"))}});
  const auto known = read_known("known: {age: 90 years, weather: [damp]}\n", *form_, told_);
  ASSERT_TRUE(known) << told_.to_text();
  notes.set_known(*known);
  ASSERT_NE(notes.all().front().known, nullptr);
  put("notes.yaml", notes_text(notes, *form_));
  const auto again = read_notes(path("notes.yaml"), *form_, told_);
  ASSERT_TRUE(again) << told_.to_text();
  HuntNotes other;
  other.replace(*again);
  EXPECT_EQ(other.known().age, "90 years");
  ASSERT_EQ(other.known().weather.size(), 1u);
  notes.undo();
  EXPECT_TRUE(notes.known().is_empty());
  EXPECT_EQ(notes.all().front().known, nullptr);
  EXPECT_EQ(notes.entries().size(), 1u);
}

TEST_F(HuntNotesTest, WhatIsNoKnowledgeIsToldAndNothingIsTaken) {
  for (const char* wrong : {"\"a: [b\"", "\"\"", "-4 years", "1e9 years"}) {
    Diagnostics mistakes;
    EXPECT_FALSE(read_known("known: {age: " + std::string(wrong) + "}\n", *form_, mistakes));
    EXPECT_FALSE(mistakes.empty()) << wrong;
  }
}

TEST_F(HuntNotesTest, WhatIsKeptIsTheSameWhenItIsOpenedAgain) {
  HuntNotes notes;
  HuntDraft slow = draft("upstairs clocks slow");
  slow.measure = "at_least";
  slow.amount = "3";
  notes.add({"", {*read(slow)}});
  HuntDraft silent = draft("bell never rings");
  silent.answer = "no";
  silent.checked = true;
  notes.add({"", {*read(silent)}});
  put("notes.yaml", notes_text(notes, *form_));
  Diagnostics mistakes;
  const auto again = read_notes(path("notes.yaml"), *form_, mistakes);
  ASSERT_TRUE(again) << mistakes.to_text();
  HuntNotes other;
  other.replace(*again);
  EXPECT_EQ(notes_text(other, *form_), notes_text(notes, *form_));
  ASSERT_EQ(again->size(), 2u);
  EXPECT_TRUE((*again)[1].checked);
  put("notes.yaml", "observations: technical-school\nseen: [{at: nowhere, sign: slow}]\n");
  EXPECT_FALSE(read_notes(path("notes.yaml"), *form_, mistakes));
  EXPECT_FALSE(mistakes.empty());
}

TEST_F(HuntNotesTest, EachChangeIsTakenBackByUndoTheLastFirst) {
  HuntNotes notes;
  const Observation one = *read(draft("upstairs clocks slow"));
  notes.add({"", {one}});
  notes.add_each({one, one});
  notes.take_out(0);
  EXPECT_EQ(notes.all().size(), 2u);
  std::uint64_t version = notes.version();
  for (const std::size_t left : {3u, 1u, 0u}) {
    ASSERT_TRUE(notes.can_undo());
    notes.undo();
    EXPECT_EQ(notes.all().size(), left);
    EXPECT_NE(notes.version(), std::exchange(version, notes.version()));
  }
  EXPECT_FALSE(notes.can_undo());
}

TEST_F(Hunt, AHiddenFaultIsHuntedByHandWithoutHelp) {
  window();
  typed("key F4");
  ASSERT_TRUE(press("lesson", {"Hunt a hidden fault"}, 100));
  until_known([&] { return hunt().told().stage == Hunter::Stage::kReady; });
  ASSERT_TRUE(press("hunt", {"Hide a fault"}));
  until_known([&] { return !hunt().practice().told().checks.empty(); });
  const Coach::Told& told = hunt().practice().told();
  EXPECT_FALSE(told.reports.empty());
  EXPECT_EQ(told.hunt, 1U);
  until([&] { return window().bench().look().hides_wrong; });
  until([&] { return hidden_faults(window().bench()).size() == told.hidden.size(); });
  EXPECT_TRUE(hunt().marks().empty());  // nothing on the drawing gives it away
  EXPECT_FALSE(press("hunt", {"pages", "###next"}, 180));
}

}  // namespace
}  // namespace sixty::gui
