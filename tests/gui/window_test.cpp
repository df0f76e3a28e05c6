// The real program, in a window of a display of its own.
#include <gtest/gtest.h>

#include <SFML/Graphics/Image.hpp>
#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <string>

#include "tests/gui/virtual_display.hpp"

namespace sixty::gui {
namespace {

std::string scene(const char* name) {
  return std::string(SIXTY_SOURCE_DIR) + "/scenes/" + name + ".yaml";
}

struct Told {
  int exit_code = -1;
  std::string text;
};

/// Runs a command line with both outputs kept. The display's driver leaks some bytes at its end,
/// which the sanitizers would take for ours.
Told tell(const std::string& environment, const std::string& command) {
  Told told;
  const std::string line =
      "env " + environment + " ASAN_OPTIONS=detect_leaks=0 timeout 120 " + command + " 2>&1";
  std::FILE* out = popen(line.c_str(), "r");
  if (out == nullptr) return told;
  std::array<char, 4096> piece{};
  while (std::fgets(piece.data(), piece.size(), out) != nullptr) told.text += piece.data();
  const int status = pclose(out);
  told.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return told;
}

std::string on_display() { return "DISPLAY=:" + display().number(); }

sf::Image picture_of(const std::string& arguments) {
  const std::string file = testing::TempDir() + "bench-" + std::to_string(getpid()) + ".png";
  std::filesystem::remove(file);
  const Told told = tell(
      on_display(), std::string(SIXTY_BENCH_PROGRAM) + " " + arguments + " --screenshot " + file);
  EXPECT_EQ(told.exit_code, 0) << told.text;
  sf::Image image;
  EXPECT_TRUE(image.loadFromFile(file));
  return image;
}

/// How many pixels are nearly of a colour.
int count_of(const sf::Image& image, sf::Color colour) {
  int count = 0;
  for (unsigned y = 0; y < image.getSize().y; ++y) {
    for (unsigned x = 0; x < image.getSize().x; ++x) {
      const sf::Color c = image.getPixel(x, y);
      const int off =
          std::abs(c.r - colour.r) + std::abs(c.g - colour.g) + std::abs(c.b - colour.b);
      if (off < 24) ++count;
    }
  }
  return count;
}

/// How many pixels of two pictures are plainly not the same.
int count_of_changed(const sf::Image& a, const sf::Image& b) {
  int count = 0;
  for (unsigned y = 0; y < a.getSize().y; ++y) {
    for (unsigned x = 0; x < a.getSize().x; ++x) {
      const sf::Color p = a.getPixel(x, y);
      const sf::Color q = b.getPixel(x, y);
      if (std::abs(p.r - q.r) + std::abs(p.g - q.g) + std::abs(p.b - q.b) > 60) ++count;
    }
  }
  return count;
}

/// Two seconds of rest change little, with the pendulum in the same place again; a contact that
/// closes lights a long way of wires.
TEST(BenchWindow, CurrentLightsItsWay) {
  ASSERT_FALSE(display().number().empty());
  const std::string arguments = scene("technical-school") + " --size 1280x800 --at ";
  const sf::Image before = picture_of(arguments + "2.5s");
  const sf::Image resting = picture_of(arguments + "4.5s");
  const int at_rest = count_of_changed(before, resting);
  EXPECT_GT(count_of_changed(resting, picture_of(arguments + "6.5s")), at_rest + 10000);
}

TEST(BenchWindow, PicturesHaveTheSizeAskedForAndAreTheSameEachTime) {
  ASSERT_FALSE(display().number().empty());
  const std::string arguments = scene("bench-minimal") + " --size 900x700 --view building --at 40s";
  const sf::Image one = picture_of(arguments);
  const sf::Image other = picture_of(arguments);
  ASSERT_EQ(one.getSize(), sf::Vector2u(900, 700));
  ASSERT_EQ(other.getSize(), one.getSize());
  const std::size_t bytes = std::size_t{900} * 700 * 4;
  EXPECT_TRUE(std::equal(one.getPixelsPtr(), one.getPixelsPtr() + bytes, other.getPixelsPtr()));
}

TEST(BenchWindow, LightThemeIsLight) {
  ASSERT_FALSE(display().number().empty());
  const sf::Image image =
      picture_of(scene("bench-minimal") + " --size 800x600 --theme light --view part:rewind");
  EXPECT_GT(count_of(image, sf::Color(0xF6, 0xF2, 0xE7)), 800 * 600 / 4);
}

TEST(BenchWindow, WithoutADisplayItSaysSo) {
  const Told told =
      tell("-u DISPLAY", std::string(SIXTY_BENCH_PROGRAM) + " " + scene("bench-minimal"));
  EXPECT_EQ(told.exit_code, 3);
  EXPECT_NE(told.text.find("there is no display"), std::string::npos) << told.text;
}

TEST(BenchWindow, RefusesWhatItCannotShowBeforeItOpens) {
  for (const std::string& wrong :
       {scene("none"), scene("bench-minimal") + " --size 3x3",
        scene("bench-minimal") + " --at noon", scene("bench-minimal") + " --view part:none",
        scene("bench-minimal") + " --view roof"}) {
    const Told told = tell(on_display(), std::string(SIXTY_BENCH_PROGRAM) + " " + wrong);
    EXPECT_EQ(told.exit_code, 2) << wrong << "\n" << told.text;
    EXPECT_NE(told.text.find("mend:"), std::string::npos) << told.text;
  }
}

}  // namespace
}  // namespace sixty::gui
