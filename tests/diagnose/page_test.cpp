// The page that is printed: well-formed whatever the names are, and complete.
#include "sim/diagnose/page.hpp"

#include <gmock/gmock.h>

#include <fstream>
#include <regex>
#include <sstream>

#include "sim/base/text.hpp"
#include "sim/diagnose/markup.hpp"
#include "sim/diagnose/plan_drawing.hpp"
#include "tests/diagnose/bench_library.hpp"
#include "tests/diagnose/well_formed.hpp"

namespace sixty::diagnose {
namespace {

using testing::HasSubstr;
using testing::Not;

class PrintedPage : public testing::Test {
 protected:
  const BenchLibrary& bench_ = BenchLibrary::get();
  const Library& library_ = bench_.library();
  std::vector<Observation> told_{bench_.observed("at: bell, sign: silent, at_least: 4"),
                                 bench_.observed("at: all secondary, sign: slow, answer: no")};
  Ranking ranking_ = rank(library_, told_, {});
  std::vector<Proposal> checks_ = next_checks(library_, ranking_, told_, bench_.checks(), 30);
  std::vector<Proposal> questions_ = next_questions(library_, ranking_, told_, bench_.checks(), 3);
  std::string page_ = page_html({library_, told_, ranking_, questions_, checks_});
};

TEST_F(PrintedPage, IsWellFormed) { EXPECT_EQ(what_is_malformed(page_), ""); }

TEST(WellFormed, IsNotWhatIsMalformed) {
  EXPECT_EQ(what_is_malformed("<a b=\"c\">d &amp; e<f/></a>\n"), "");
  for (const char* wrong : {"<a>", "<a></b>", "<a>&</a>", "<a>&nbsp;</a>", "<a b=c/>", "<a/><a/>",
                            "<a><b></a></b>", "<a/>text", "<a>\x01</a>"})
    EXPECT_NE(what_is_malformed(wrong), "") << wrong;
}

TEST_F(PrintedPage, NamesTheLeaderItsPartAndItsShare) {
  const Ranked& first = ranking_.ranked.front();
  const Suspect& suspect = library_.suspects[first.suspect];
  EXPECT_THAT(page_, HasSubstr(escaped(full_name(*suspect.fault))));
  EXPECT_THAT(
      page_,
      HasSubstr(escaped("1. " + std::to_string(std::lround(100 * first.probability)) + " %  " +
                        words_of_key(library_.installation->parts[suspect.part].name) + ": " +
                        suspect.fault->title)));
}

TEST_F(PrintedPage, HasTheCautionOfEveryCheckAndOfEverySuspectThatIsShown) {
  std::size_t cautions = 0;
  for (const Proposal& one : checks_) {
    EXPECT_THAT(page_, HasSubstr(escaped(": " + one.check->what + "."))) << one.check->id;
    if (one.check->care.empty()) continue;
    ++cautions;
    EXPECT_THAT(page_,
                HasSubstr(escaped("Caution: " + one.check->hazard + "; " + one.check->care)));
  }
  EXPECT_GT(cautions, 3u);
  for (std::size_t k = 0; k < 3; ++k) {
    const Fault& fault = *library_.suspects[ranking_.ranked[k].suspect].fault;
    if (!fault.caution.empty()) {
      EXPECT_THAT(page_, HasSubstr(escaped(fault.caution)));
    }
  }
}

TEST_F(PrintedPage, TellsWhatWasNoticedWhatNobodyKnowsAndFromWhat) {
  EXPECT_THAT(page_, HasSubstr("bell misses rings by at least 4"));
  EXPECT_THAT(page_, HasSubstr("none of these"));
  EXPECT_THAT(page_, HasSubstr("nothing is the matter"));
  EXPECT_THAT(page_, HasSubstr("By " + std::to_string(library_.simulations) + " runs"));
  EXPECT_THAT(page_, HasSubstr("watched from 2026-01-04T00:00:00 on"));
}

TEST_F(PrintedPage, IsWholeInItself) {
  for (const char* outside : {"<script", "<link", "<img", "url(", "@import"})
    EXPECT_THAT(page_, Not(HasSubstr(outside)));
}

TEST_F(PrintedPage, NamesThatLookLikeMarkupStayNames) {
  EXPECT_EQ(escaped("<b>\"A\" & 'B'</b>\x02"),
            "&lt;b&gt;&quot;A&quot; &amp; &#39;B&#39;&lt;/b&gt;");
  std::ostringstream file;
  file << std::ifstream(SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml").rdbuf();
  const std::string text = std::regex_replace(file.str(), std::regex("\\nscene: [^\n]*"),
                                              "\nscene: \"<script>alert(1)</script> & co\"");
  Diagnostics mistakes;
  const auto scene = load_scene_text(text, "odd.yaml", bench_.registry(), {}, mistakes);
  ASSERT_NE(scene, nullptr) << mistakes.to_text();
  const std::string svg = plan_svg(*scene, {{0, 1, 0.4}});
  EXPECT_EQ(what_is_malformed(svg), "");
  EXPECT_THAT(svg, HasSubstr("&lt;script&gt;"));
  EXPECT_THAT(svg, Not(HasSubstr("<script>")));
}

class Plan : public testing::Test {
 protected:
  std::string plan(const std::string& name, const std::vector<PlanMark>& marks) {
    scene_ = load_scene(SIXTY_SOURCE_DIR "/scenes/" + name + ".yaml",
                        BenchLibrary::get().registry(), {}, mistakes_);
    return plan_svg(*scene_, marks);
  }
  static std::size_t count(const std::string& text, const std::string& what) {
    std::size_t found = 0;
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + 1))
      ++found;
    return found;
  }
  Diagnostics mistakes_;
  std::shared_ptr<const Installation> scene_;
};

TEST_F(Plan, ShowsEachPartOnceAndEachRoom) {
  for (const char* name : {"technical-school", "bench-minimal", "corner-school", "dry-cell-mill"}) {
    const std::string svg = plan(name, {});
    EXPECT_EQ(what_is_malformed(svg), "") << name;
    EXPECT_EQ(count(svg, "<circle class=\"part\""), scene_->parts.size()) << name;
    EXPECT_GE(count(svg, "<rect class=\"room\""), scene_->rooms.size()) << name;
  }
}

TEST_F(Plan, MarksSuspectsByNumberFormAndShare) {
  const std::string svg = plan("technical-school", {{3, 1, 0.43}, {9, 2, 0.1}, {3, 3, 0.05}});
  EXPECT_EQ(count(svg, "<circle class=\"ring\""), 2u);
  EXPECT_EQ(count(svg, "class=\"lead\""), 1u);
  EXPECT_EQ(count(svg, "class=\"hex\""), 2u);
  for (const char* words : {": 43 %, 5 %<", ": 10 %<", ">1<", ">2<", ">3<"})
    EXPECT_THAT(svg, HasSubstr(words));
}

}  // namespace
}  // namespace sixty::diagnose
