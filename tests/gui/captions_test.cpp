// What is heard, in writing.
#include "gui/sound/captions.hpp"

#include <gtest/gtest.h>

#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

/// The bench's scene, with what is heard of it until a time.
class CaptionsTest : public testing::Test {
 protected:
  void listen_from(SimTime from, SimTime to) {
    session_.seek(from);
    Ear ear(*scene_);
    ear.run(session_, to, 1, to_seconds(to - from), nullptr);
    captions_.take(ear.hearing());
  }

  std::shared_ptr<const Installation> scene_ = bench_scene();
  Session session_{scene_};
  Captions captions_{*scene_};
};

TEST_F(CaptionsTest, ASoundIsWrittenAsLongAsItTakesToBeRead) {
  EXPECT_TRUE(captions_.lines(0).empty());
  listen_from(10 * kSecond + 600 * kMillisecond, 11 * kSecond + 600 * kMillisecond);
  const std::vector<std::string> lines = captions_.lines(1);
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_EQ(lines[0].substr(0, 10), "Movement: ");
  EXPECT_GT(lines[0].size(), 15U);
  EXPECT_EQ(captions_.lines(1 + 0.99 * Captions::kStays_s), lines);
  EXPECT_TRUE(captions_.lines(1 + 1.01 * Captions::kStays_s).empty());
}

TEST_F(CaptionsTest, ASoundThatIsHeardAgainIsStillOneLine) {
  listen_from(10 * kSecond + 600 * kMillisecond, 11 * kSecond + 600 * kMillisecond);
  EXPECT_EQ(captions_.lines(0).size(), 1U);
  listen_from(12 * kSecond + 600 * kMillisecond, 13 * kSecond + 600 * kMillisecond);
  EXPECT_EQ(captions_.lines(2).size(), 1U);
  EXPECT_EQ(captions_.lines(3).size(), 1U);  // and stays, since it was heard at 2
}

TEST_F(CaptionsTest, OfManySoundsTheLatestAreWritten) {
  Hearing hearing;
  std::size_t sounds = 0;
  for (PartId p = 0; p < scene_->parts.size(); ++p)
    for (std::size_t v = 0; v < scene_->parts[p].part->voices().size(); ++v, ++sounds) {
      hearing.heard = {{p, v, 1, 0}};
      captions_.take(hearing);
      captions_.lines(0.01 * static_cast<double>(sounds));
    }
  ASSERT_GT(sounds, Captions::kMostLines);
  const std::vector<std::string> lines = captions_.lines(1);
  EXPECT_EQ(lines.size(), Captions::kMostLines);
  captions_.take(hearing);
  EXPECT_EQ(captions_.lines(1.1), lines);  // what is heard again keeps its place
}

TEST_F(CaptionsTest, NothingIsLeftAfterAJump) {
  listen_from(10 * kSecond, 15 * kSecond);
  captions_.clear();
  EXPECT_TRUE(captions_.lines(0).empty());
}

}  // namespace
}  // namespace sixty::gui
