// What people write, in their own words, leads to what can be told of an installation.
#include "sim/diagnose/sign_search.hpp"

#include <gmock/gmock.h>

#include <algorithm>

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

struct Phrase {
  const char *words, *entry;
};
// Own words, of a caretaker, a teacher, a verger, an electrician: what each should find at once.
constexpr Phrase kPhrases[] = {
    {"the hall bell did not ring", "bell_hall/silent"},
    {"no bell in the yard any more", "bell_yard/mute"},
    {"the library bell only buzzes", "bell_library/buzzes"},
    {"bell in shop 1 sounds muffled", "bell_shop_1/dull"},
    {"bell goes on for a whole minute", "all bell/many_strokes"},
    {"bells rang in the middle of the night", "all bell/unasked"},
    {"bell is hot to the touch", "all bell/warm"},
    {"burnt smell at the bell", "all bell/warm"},
    {"bell hums instead of ringing", "all bell/buzzes"},
    {"bell stutters", "all bell/few_strokes"},
    {"clock in the porch is frozen", "clock_porch/stands"},
    {"clock in room 104 is stuck", "clock_104/stands"},
    {"all the clocks stopped", "all secondary/stands"},
    {"clocks upstairs are minutes behind", "upstairs/slow"},
    {"first floor clocks are ahead", "first floor/fast"},
    {"clocks get worse every day", "all secondary/loses"},
    {"clocks run further ahead each day", "all secondary/gains"},
    {"every clock shows something different", "all secondary/other_time"},
    {"the clocks do not agree", "all secondary/other_time"},
    {"clock 205 hums", "clock_205/stays_in"},
    {"clock 104 feels hot under a finger", "clock_104/warm"},
    {"clock 104 no tick", "clock_104/no_click"},
    {"the pendulum stopped", "movement/stands"},
    {"master clock hangs still", "movement/stands"},
    {"at which second the seconds hand stopped", "movement/stands_at"},
    {"always stops at the same second", "movement/stands_at"},
    {"pendulum ticks lame", "movement/uneven"},
    {"pendulum swings little", "movement/arc_small"},
    {"master loses against the radio time signal", "movement/loses"},
    {"master clock gains against the radio", "movement/gains"},
    {"master is an hour out", "movement/wrong"},
    {"the thump is missing", "rewind/misses"},
    {"winding magnet is tired", "rewind/slow"},
    {"winding magnet stinks", "rewind/warm"},
    {"winding magnet stays stuck in", "rewind/stays_in"},
    {"winding hammers like a machine gun", "rewind/chatters"},
    {"spring is slack", "rewind/run_down"},
    {"school bell came too late", "tape/late"},
    {"bells minutes too early", "tape/early"},
    {"bells ring later each day", "tape/falls_behind"},
    {"morning bells ring in the evening instead", "tape/half_day_out"},
    {"lesson bell missing", "timetable/missed"},
    {"bells on holiday nobody asked for", "timetable/unasked"},
    {"paper tape is ripped", "tape/edge_torn"},
    {"bits of paper left in holes", "tape/chads_left"},
    {"tape switched off", "tape/stopped"},
    {"paper tape not moving", "tape/stands"},
    {"relay rattles like a machine gun", "all relay/clicks_often"},
    {"relay stinks", "all relay/warm"},
    {"minute relay makes no click", "minute_relay/misses"},
    {"minute relay stuck", "minute_relay/holds_on"},
    {"blue sparks at the contact arm", "all contact_arm/sparks"},
    {"contact arm crackles", "all contact_arm/rattles"},
    {"contact is black and sooty", "all contact_arm/resistance_high"},
    {"supply drones", "supply/ripple"},
    {"supply dips when the bells ring", "supply/sags"},
    {"main fuse burnt out", "main_fuse/blown"},
    {"fuse wobbly in its holder", "all fuse/loose"},
    {"somebody switched it off", "all switch/position_odd"},
    {"cable is wet and leaks", "all wire/leaks"},
    {"green corroded joint", "all wire/bad_place"},
    {"week wheel at wrong weekday", "week_wheel/place_wrong"},
};

TEST_F(SearchingSigns, WhatPeopleSayIsAmongTheFirstThreeThatAreFound) {
  for (const Phrase& phrase : kPhrases) {
    std::vector<std::string> some = entries(phrase.words);
    some.resize(std::min<std::size_t>(some.size(), 3));
    EXPECT_THAT(some, Contains(phrase.entry)) << phrase.words;
  }
}

}  // namespace
}  // namespace sixty::diagnose
