// What is drawn flashes no more than is safe, at any speed.
#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>

#include "tests/gui/flashes.hpp"
#include "tests/gui/virtual_display.hpp"

namespace sixty::gui {
namespace {

namespace fs = std::filesystem;

std::vector<sf::Image> blinking(int periods, sf::Uint8 low, sf::Uint8 high, unsigned side) {
  std::vector<sf::Image> pictures;
  for (int k = 0; k < 2 * periods + 1; ++k) {
    sf::Image& picture = pictures.emplace_back();
    picture.create(400, 300, sf::Color(128, 128, 128));
    const sf::Uint8 grey = k % 2 == 0 ? low : high;
    for (unsigned y = 0; y < side; ++y)
      for (unsigned x = 0; x < side; ++x) picture.setPixel(x, y, {grey, grey, grey});
  }
  return pictures;
}

TEST(Flashes, AreCountedWhereTheyAreManyAndStrong) {
  EXPECT_EQ(flashing_pixels(blinking(4, 0, 255, 50)), 2500);
  EXPECT_EQ(flashing_pixels(blinking(3, 0, 255, 50)), 0);     // three are borne
  EXPECT_EQ(flashing_pixels(blinking(12, 0, 60, 50)), 0);     // by 0.05 of luminance
  EXPECT_EQ(flashing_pixels(blinking(12, 232, 255, 50)), 0);  // all of it bright
}

class Drawn : public testing::TestWithParam<const char*> {};

/// A second of the wall, with the school's bells ringing in it, at this speed.
TEST_P(Drawn, FlashesLessThanIsSafe) {
  const fs::path folder =
      fs::path(testing::TempDir()) / ("flash-" + std::to_string(getpid()) + "-film");
  fs::remove_all(folder);
  const std::string line =
      "env DISPLAY=:" + display().number() + " ASAN_OPTIONS=detect_leaks=0 timeout 300 " +
      SIXTY_BENCH_PROGRAM " " SIXTY_SOURCE_DIR
                          "/scenes/technical-school.yaml --size 1024x768 --film '" +
      folder.string() + "' " + GetParam() + " > /dev/null 2>&1";
  ASSERT_EQ(std::system(line.c_str()), 0) << line;
  std::vector<std::string> files;
  for (const auto& file : fs::directory_iterator(folder))
    if (file.path().extension() == ".png") files.push_back(file.path());
  std::sort(files.begin(), files.end());
  ASSERT_GE(files.size(), 25U);
  std::vector<sf::Image> pictures;
  for (std::size_t k = 0; k < std::min<std::size_t>(files.size(), 26); ++k)
    ASSERT_TRUE(pictures.emplace_back().loadFromFile(files[k]));
  const int flashing = flashing_pixels(pictures);
  RecordProperty("flashing", flashing);
  EXPECT_LT(flashing, kMostFlashing);
  fs::remove_all(folder);
}

INSTANTIATE_TEST_SUITE_P(
    AtSpeed, Drawn,
    testing::Values("--from 'Mon 08:45:10' --to 'Mon 08:45:11' --speed 1 --view building",
                    "--from 'Mon 08:44:50' --to 'Mon 08:45:50' --speed 60 --view building",
                    "--from 'Mon 08:40' --to 'Mon 08:56:40' --speed 1000 --view building",
                    "--from 'Mon 08:40' --to 'Mon 08:56:40' --speed 1000 --theme light",
                    "--from 'Mon 06:00' --to 'Tue 09:46:40' --speed 100000 --view building"));

}  // namespace
}  // namespace sixty::gui
