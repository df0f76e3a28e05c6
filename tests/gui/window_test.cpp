// The real program, in a window of a display of its own.
#include <gtest/gtest.h>

#include <SFML/Graphics/Image.hpp>
#include <algorithm>
#include <cstdlib>
#include <string>

#include "tests/gui/program.hpp"

namespace sixty::gui {
namespace {

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
  const std::string arguments = scene_file("technical-school") + " --size 1280x800 --at ";
  const sf::Image before = picture_of(arguments + "2.5s");
  const sf::Image resting = picture_of(arguments + "4.5s");
  const int at_rest = count_of_changed(before, resting);
  EXPECT_GT(count_of_changed(resting, picture_of(arguments + "6.5s")), at_rest + 10000);
}

TEST(BenchWindow, PicturesHaveTheSizeAskedForAndAreTheSameEachTime) {
  ASSERT_FALSE(display().number().empty());
  const std::string arguments =
      scene_file("bench-minimal") + " --size 900x700 --view building --at 40s";
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
      picture_of(scene_file("bench-minimal") + " --size 800x600 --theme light --view part:rewind");
  EXPECT_GT(count_of(image, sf::Color(0xF6, 0xF2, 0xE7)), 800 * 600 / 4);
}

TEST(BenchWindow, RefusesWhatItCannotShowBeforeItOpens) {
  for (const std::string& wrong : {scene_file("none"), scene_file("bench-minimal") + " --size 3x3",
                                   scene_file("bench-minimal") + " --at noon",
                                   scene_file("bench-minimal") + " --view part:none",
                                   scene_file("bench-minimal") + " --view roof"}) {
    const Told told = tell(on_display(), std::string(SIXTY_BENCH_PROGRAM) + " " + wrong);
    EXPECT_EQ(told.exit_code, 2) << wrong << "\n" << told.text;
    EXPECT_NE(told.text.find("mend:"), std::string::npos) << told.text;
  }
}

}  // namespace
}  // namespace sixty::gui
