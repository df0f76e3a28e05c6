// What people write, in their own words, leads to what can be told of an installation.
#include "sim/diagnose/sign_search.hpp"

#include <gmock/gmock.h>

#include "models/part_list.hpp"
#include "sim/scene/loader.hpp"

namespace sixty::diagnose {
namespace {

using testing::Contains;
using testing::Not;

class SearchingSigns : public testing::Test {
 protected:
  std::string first(const std::string& words) const { return entries(words).front(); }
  /// "PLACE/SIGN" of each that is found.
  std::vector<std::string> entries(const std::string& words) const {
    std::vector<std::string> all;
    for (const Tellable& one : search_.find(words, 12)) all.push_back(one.place + "/" + one.sign);
    if (all.empty()) all.emplace_back("nothing");
    return all;
  }
  const Tellable found(const std::string& words) const { return search_.find(words, 1).at(0); }

  Registry registry_ = models::registry();
  Diagnostics diagnostics_;
  Mistakes mistakes_{diagnostics_};
  SignBook book_{registry_, mistakes_};
  std::shared_ptr<const Installation> school_ =
      load_scene(SIXTY_SOURCE_DIR "/scenes/technical-school.yaml", registry_, {}, diagnostics_);
  std::vector<SignAt> signs_ = signs_of(*school_, book_);
  SignSearch search_{*school_, signs_};
};

TEST_F(SearchingSigns, UpstairsClocksSlowIsSlowAtTheClocksOfTheUpperFloors) {
  const Tellable one = found("upstairs clocks slow");
  EXPECT_EQ(one.sign, "slow");
  EXPECT_EQ(one.words, "upstairs: is slow");
  std::size_t above = 0;
  for (const SignAt& at : signs_) {
    const std::string& room = school_->parts[at.part].room;
    for (const Room& known : school_->rooms) {
      if (known.name == room && known.floor > 0 && at.sign->name == "slow") ++above;
    }
  }
  EXPECT_GT(above, 20u);
  EXPECT_EQ(one.which.size(), above);
  EXPECT_THAT(entries("upstairs clocks slow"), Contains("second floor/slow"));
}

TEST_F(SearchingSigns, EndingsCapitalsSmallWordsAndASlipOfTheFingerDoNotMatter) {
  const std::string plain = first("upstairs clock slow");
  for (const char* words :
       {"The clocks upstairs are slow!", "UPSTAIRS CLOCKS SLOW", "upstiars clocks slow"})
    EXPECT_EQ(first(words), plain) << words;
}

TEST_F(SearchingSigns, APlaceThatIsNamedGoesBeforeAllOthers) {
  EXPECT_EQ(first("clocks on the second floor slow"), "second floor/slow");
  EXPECT_EQ(first("clock 104 stopped"), "clock_104/stands");
  EXPECT_EQ(first("yard bell misses"), "bell_yard/silent");
  EXPECT_THAT(entries("slow in the corridor"), Contains("clock_corridor_1/slow"));
}

TEST_F(SearchingSigns, WhereNoPlaceIsNamedTheWholeKindComesFirst) {
  EXPECT_EQ(first("clocks stopped"), "all secondary/stands");
  EXPECT_EQ(first("the bells miss rings"), "all bell/silent");
}

TEST_F(SearchingSigns, WordsThatAreNowhereFindNothingAndNeitherDoesAnEmptyText) {
  EXPECT_EQ(first("xylophone"), "nothing");
  EXPECT_EQ(first("the of and"), "nothing");
  EXPECT_EQ(first(""), "nothing");
  EXPECT_EQ(first("slow xylophone"), first("slow"));
}

TEST_F(SearchingSigns, EverySignIsFoundByItsOwnWordsAtEachPartThatHasIt) {
  for (const SignAt& at : signs_) {
    const std::string& part = school_->parts[at.part].name;
    std::vector<std::string> found;
    for (const Tellable& one : search_.of_part(at.part)) found.push_back(one.sign);
    EXPECT_THAT(found, Contains(at.sign->name)) << part;
  }
}

TEST_F(SearchingSigns, WhatIsSeenAtOneIsOfferedForItsLineItsRoomItsFloorAndAll) {
  const Tellable one = found("clock 104 slow");
  std::vector<std::string> places;
  for (const Tellable& other : search_.elsewhere(one)) places.push_back(other.place);
  EXPECT_EQ(places.front(), "clock_104");
  for (const char* place : {"all secondary", "first floor", "upstairs"})
    EXPECT_THAT(places, Contains(place));
  EXPECT_THAT(places, Not(Contains("second floor")));
}

}  // namespace
}  // namespace sixty::diagnose
