// What is asked by pointing at a part, and its answer.
#include "gui/bench/asker.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <thread>

#include "models/part_list.hpp"
#include "sim/scene/loader.hpp"

namespace sixty::gui {
namespace {

std::shared_ptr<const Installation> scene(const Registry& registry, const char* fault,
                                          bool sound = false) {
  Diagnostics mistakes;
  SceneChanges changes;
  changes.fault = {fault};
  changes.sound = sound;
  auto loaded = load_scene(std::string(SIXTY_SOURCE_DIR) + "/scenes/bench-minimal.yaml", registry,
                           changes, mistakes);
  EXPECT_TRUE(mistakes.empty()) << mistakes.to_text();
  return loaded;
}

class AskerTest : public testing::Test {
 protected:
  Registry registry_ = models::registry();
  std::shared_ptr<const Installation> faulty_ = scene(registry_, "F60@minute_relay:1");
  std::shared_ptr<const Installation> sound_ = scene(registry_, "F60@minute_relay:1", true);
  Asker asker_{faulty_, sound_};
  Asker::Log log_ = std::make_shared<const std::vector<Action>>(faulty_->script);
  PartId relay_ = faulty_->find_id("minute_relay").value();
};

TEST_F(AskerTest, TheChainOfAPartEndsAtWhatIsWrongWithIt) {
  asker_.ask(question_about(*faulty_, relay_, 36 * kSecond, kMinute), log_);
  asker_.wait();
  const Asker::Told told = asker_.told();
  EXPECT_FALSE(told.busy);
  EXPECT_FALSE(told.headline.empty());
  EXPECT_TRUE(std::any_of(told.links.begin(), told.links.end(), [&](const explain::Link& link) {
    return link.part == relay_ && link.what == explain::Link::What::kValue;
  }));
}

TEST_F(AskerTest, TheFirstDifferenceIsFoundOnce) {
  asker_.compare(log_, 2 * kMinute);
  asker_.wait();
  ASSERT_TRUE(asker_.told().first.has_value());
  EXPECT_GT(asker_.told().first->deed.at, 30 * kSecond);
  EXPECT_LT(asker_.told().first->deed.at, 40 * kSecond);
}

TEST_F(AskerTest, NothingIsAskedAboutWhatIsNotYetKnown) {
  const explain::Question q = question_about(*faulty_, relay_, 20 * kSecond, 20 * kSecond);
  EXPECT_EQ(q.to, 20 * kSecond);
  EXPECT_FALSE(q.any.empty());
}

TEST_F(AskerTest, ANewQuestionTakesThePlaceOfTheOneBefore) {
  for (int k = 0; k < 5; ++k)
    asker_.ask(question_about(*faulty_, relay_, k * kMinute, kHour), log_);
  asker_.wait();
  EXPECT_NE(asker_.told().headline.find("minute relay"), std::string::npos);
  asker_.forget();
  EXPECT_TRUE(asker_.told().headline.empty());
}

TEST_F(AskerTest, TellsHowFarItHasComeAndIsGivenUpOnTheWay) {
  const SimTime far = 20 * 365 * kDay;
  asker_.ask(question_about(*faulty_, relay_, far, far), log_);
  const auto come = [&] { return asker_.told().come.value_or(0); };
  while (come() == 0) std::this_thread::yield();
  EXPECT_TRUE(asker_.told().answers);
  EXPECT_EQ(asker_.told().goes_to, far);
  EXPECT_LT(come(), far);
  asker_.forget();
  asker_.wait();
  EXPECT_FALSE(asker_.told().answers);
  EXPECT_LT(come(), far);
  EXPECT_TRUE(asker_.told().headline.empty());
}

TEST_F(AskerTest, PartsAreCalledByNameAsPeopleWriteThem) {
  asker_.ask(question_about(*faulty_, relay_, 36 * kSecond, kMinute), log_);
  asker_.wait();
  const Asker::Told told = asker_.told();
  EXPECT_NE(told.headline.find("minute relay"), std::string::npos);
  EXPECT_EQ(told.headline.find('_'), std::string::npos) << told.headline;
  for (const explain::Link& link : told.links)
    EXPECT_EQ(link.text.find('_'), std::string::npos) << link.text;
}

}  // namespace
}  // namespace sixty::gui
