// Films: when their pictures are taken, where they go, and that they are the same each time.
#include "gui/tour/film.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "gui/bench/options.hpp"
#include "tests/gui/virtual_display.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

namespace fs = std::filesystem;

class Films : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = fs::path(testing::TempDir()) / ("film-" + std::to_string(getpid()));
    fs::remove_all(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }

  std::string folder(const char* name) const { return (folder_ / name).string(); }
  static void put(const fs::path& path, const std::string& bytes) {
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << bytes;
  }
  static std::string bytes_of(const fs::path& path) {
    std::ifstream file(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
  }
  /// The program's exit code.
  static int film(const std::string& arguments) {
    const std::string line = "env DISPLAY=:" + display().number() +
                             " ASAN_OPTIONS=detect_leaks=0 timeout 120 " SIXTY_BENCH_PROGRAM
                             " " SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml --size 400x320 " +
                             arguments + " > /dev/null 2>&1";
    const int status = std::system(line.c_str());
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  }

 private:
  fs::path folder_;
};

TEST_F(Films, HaveTwentyFivePicturesToASecondOfTheWall) {
  const std::vector<SimTime> times = film_times(kMinute, kMinute + kSecond, 0.5);
  ASSERT_EQ(times.size(), 51U);
  EXPECT_EQ(times[1] - times[0], 20 * kMillisecond);
  EXPECT_EQ(times.back(), kMinute + kSecond);
  EXPECT_EQ(film_times(5, 5, 1).size(), 1U);
  EXPECT_EQ(film_times(0, kWeek, 1e-5).size(), kMostFrames + 1);
}

TEST_F(Films, EndWithAPictureOfTheEndThatWasAskedFor) {
  const SimTime to = kMinute + 70 * kMillisecond;
  const std::vector<SimTime> times = film_times(kMinute, to, 1);
  ASSERT_EQ(times.size(), 3U);
  EXPECT_EQ(times[1], kMinute + 40 * kMillisecond);
  EXPECT_EQ(times.back(), to);
  Session session(bench_scene());
  EXPECT_EQ(stretched_film_times(session, 3 * kSecond, 7 * kSecond).back(), 7 * kSecond);
}

TEST_F(Films, StretchedTheySlowRoundWhatHappens) {
  Session session(bench_scene());
  const std::vector<SimTime> times = stretched_film_times(session, 0, kMinute - 1);
  EXPECT_GT(times.size(), 8U * kFilmRate);
  EXPECT_LT(times.size(), 12U * kFilmRate);
  SimTime least = kMinute, most = 0;
  for (std::size_t k = 1; k < times.size(); ++k) {
    least = std::min(least, times[k] - times[k - 1]);
    most = std::max(most, times[k] - times[k - 1]);
  }
  EXPECT_GT(least, 0);
  EXPECT_LT(100 * least, most);
}

TEST_F(Films, CaptionsTellWhatBeganAndForgetIt) {
  const std::vector<FilmDeed> deeds{{kSecond, "one"}, {2 * kSecond, "two"}};
  const std::vector<SimTime> times = film_times(0, 10 * kSecond, 1);
  const auto fits = [](const std::string& text) { return text.size() < 20; };
  EXPECT_EQ(film_caption(deeds, times, 0, fits), "");
  EXPECT_EQ(film_caption(deeds, times, 25, fits), "one");
  EXPECT_EQ(film_caption(deeds, times, 51, fits), "one,  two");
  EXPECT_EQ(film_caption(deeds, times, 90, fits), "two");
  EXPECT_EQ(film_caption(deeds, times, 200, fits), "");
  const auto narrow = [](const std::string& text) { return text.size() < 5; };
  EXPECT_EQ(film_caption(deeds, times, 51, narrow), "two");
  Session session(bench_scene());
  const std::vector<FilmDeed> found = film_deeds(session, 4 * kSecond, 6 * kSecond);
  EXPECT_TRUE(std::any_of(found.begin(), found.end(), [](const FilmDeed& d) {
    return d.text == "rewind: the armature leaves its open stop and closes";
  }));
}

TEST_F(Films, TakeTheirOwnOldPicturesAwayAndNothingElse) {
  const std::string own = folder("own"), other = folder("other");
  put(own + "/" + frame_name(7), "x");
  put(own + "/" + frame_name(8) + kPartOfPicture, "x");  // of a film that was broken off
  EXPECT_EQ(prepare_film_folder(own), "");
  EXPECT_TRUE(fs::is_empty(own));
  put(other + "/letter.txt", "x");
  put(other + "/" + frame_name(7), "x");
  EXPECT_NE(prepare_film_folder(other).find("letter.txt"), std::string::npos);
  EXPECT_TRUE(fs::exists(other + "/" + frame_name(7)));
  EXPECT_EQ(prepare_film_folder(folder("made/deep")), "");
  EXPECT_NE(prepare_film_folder(other + "/letter.txt").find("mend:"), std::string::npos);
}

TEST_F(Films, ACutPictureIsFoundOut) {
  const std::string end("\0\0\0\0IEND\xAE\x42\x60\x82", 12);
  put(folder("whole.png"), "head" + end);
  put(folder("cut.png"), "head" + end.substr(0, 9));
  put(folder("short.png"), "x");
  EXPECT_TRUE(is_whole_png(folder("whole.png")));
  EXPECT_FALSE(is_whole_png(folder("cut.png")));
  EXPECT_FALSE(is_whole_png(folder("short.png")));
  EXPECT_FALSE(is_whole_png(folder("none.png")));
}

TEST_F(Films, AreTheSameBytesEachTimeWithAsManyPicturesAsAskedFor) {
  ASSERT_FALSE(display().number().empty());
  const std::string what = " --from 5s --to 5.1s --speed 0.5 --captions";
  ASSERT_EQ(film("--film " + folder("a") + what), 0);
  ASSERT_EQ(film("--film " + folder("b") + what), 0);
  for (std::size_t k = 1; k <= 6; ++k) {
    const std::string one = bytes_of(folder("a") + "/" + frame_name(k));
    EXPECT_GT(one.size(), 1000U);
    EXPECT_TRUE(one == bytes_of(folder("b") + "/" + frame_name(k))) << k;
  }
  EXPECT_FALSE(fs::exists(folder("a") + "/" + frame_name(7)));
  EXPECT_NE(bytes_of(folder("a") + "/" + frame_name(1)),
            bytes_of(folder("a") + "/" + frame_name(6)));
}

/// A weekday's next time may lie a week on: what is meant is that it lies before.
TEST_F(Films, ThatWouldEndBeforeTheyBeginAreToldSo) {
  for (const char* to : {"Mon 08:20", "08:20"}) {
    Options options;
    options.scene = std::string(SIXTY_SOURCE_DIR) + "/scenes/bench-minimal.yaml";
    options.film.folder = folder("a");
    options.film.from = "Mon 08:30";
    options.film.to = to;
    Diagnostics mistakes;
    open_scene(options, models::registry(), mistakes);
    ASSERT_EQ(mistakes.list().size(), 1U) << to;
    EXPECT_NE(mistakes.list()[0].what.find("--to lies before --from"), std::string::npos)
        << mistakes.to_text();
  }
}

TEST_F(Films, AreRefusedWhereTheyCannotBeMade) {
  ASSERT_FALSE(display().number().empty());
  EXPECT_EQ(film("--film " + folder("a") + " --from 5s"), 2);
  EXPECT_EQ(film("--film " + folder("a") + " --from 5s --to 4s"), 2);
  EXPECT_EQ(film("--film " + folder("a") + " --from 5s --to noon"), 2);
  EXPECT_EQ(film("--film " + folder("a") + " --from 5s --to 400d"), 2);
  EXPECT_EQ(film("--from 5s"), 2);
  put(folder("full/letter.txt"), "x");
  EXPECT_EQ(film("--film " + folder("full") + " --from 5s --to 6s"), 3);
}

}  // namespace
}  // namespace sixty::gui
