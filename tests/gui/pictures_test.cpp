// What the window shows is what it showed when it was last looked at. With SIXTY_WRITE_PICTURES set
// in the environment the kept pictures are made anew instead:
// build/tests/gui_tests --gtest_filter='*KeptPicture*'
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>

#include "gui/bench/layout.hpp"
#include "gui/bench/sight.hpp"
#include "tests/gui/likeness.hpp"
#include "tests/gui/program.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

constexpr const char* kFolder = SIXTY_SOURCE_DIR "/tests/gui/pictures/";

struct Kept {
  const char* name;
  const char* view;
  const char* theme;
};

constexpr Kept kAll[] = {{"building-dark", "building", "dark"},
                         {"building-light", "building", "light"},
                         {"case-dark", "case", "dark"},
                         {"case-light", "case", "light"},
                         {"part-dark", "part:minute_relay", "dark"},
                         {"part-light", "part:minute_relay", "light"}};

sf::Image kept_picture(const std::string& name) {
  sf::Image image;
  EXPECT_TRUE(image.loadFromFile(kFolder + name + ".png")) << name;
  return image;
}

class KeptPicture : public testing::TestWithParam<Kept> {};

TEST_P(KeptPicture, IsWhatTheWindowShows) {
  ASSERT_FALSE(display().number().empty());
  const Kept& kept = GetParam();
  const sf::Image now = halved(picture_of(scene_file("technical-school") +
                                          " --size 1280x800 --at 'Mon 08:30:05.062' --theme " +
                                          kept.theme + " --view " + kept.view));
  if (std::getenv("SIXTY_WRITE_PICTURES") != nullptr) {
    ASSERT_TRUE(now.saveToFile(kFolder + std::string(kept.name) + ".png"));
    return;
  }
  const sf::Image before = kept_picture(kept.name);
  ASSERT_EQ(now.getSize(), before.getSize());
  const Likeness like = likeness(now, before);
  if (like.is_same()) return;
  const std::string beside = testing::TempDir() + kept.name + "-now.png";
  now.saveToFile(beside);
  ADD_FAILURE() << kept.name << ": " << like.text() << "\n  now:  " << beside
                << "\n  mend: look at both; where it is meant to look so, make the pictures anew "
                   "(see the head of this file)";
}

INSTANTIATE_TEST_SUITE_P(All, KeptPicture, testing::ValuesIn(kAll), [](const auto& made) {
  std::string name = made.param.name;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
});

/// A box of a kept picture, in its pixels.
struct Box {
  int left, top, right, foot;
};

using Change = std::function<sf::Color(const sf::Image&, unsigned x, unsigned y)>;

/// The picture with each pixel of a box made anew from it.
sf::Image changed(const sf::Image& image, const Box& box, const Change& change) {
  sf::Image out = image;
  const auto width = static_cast<int>(image.getSize().x);
  const auto height = static_cast<int>(image.getSize().y);
  for (int y = std::max(box.top, 0); y < std::min(box.foot, height); ++y) {
    for (int x = std::max(box.left, 0); x < std::min(box.right, width); ++x) {
      const auto i = static_cast<unsigned>(x), k = static_cast<unsigned>(y);
      out.setPixel(i, k, change(image, i, k));
    }
  }
  return out;
}

/// A box of it with something of what is about it.
sf::Image piece_of(const sf::Image& image, const Box& box) {
  constexpr int kAround = 18;
  sf::Image piece;
  const int left = std::max(box.left - kAround, 0), top = std::max(box.top - kAround, 0);
  const auto size = image.getSize();
  piece.create(
      static_cast<unsigned>(std::min(box.right + kAround, static_cast<int>(size.x)) - left),
      static_cast<unsigned>(std::min(box.foot + kAround, static_cast<int>(size.y)) - top));
  piece.copy(image, 0, 0,
             {left, top, static_cast<int>(piece.getSize().x), static_cast<int>(piece.getSize().y)});
  return piece;
}

Box all_of(const sf::Image& image) {
  return {0, 0, static_cast<int>(image.getSize().x), static_cast<int>(image.getSize().y)};
}

/// Everything a part of a pixel to the right and down: what is between two of them is their mean.
Change shifted(double by) {
  return [by](const sf::Image& image, unsigned x, unsigned y) {
    const sf::Color a = image.getPixel(x, y);
    const sf::Color b = image.getPixel(x > 0 ? x - 1 : 0, y > 0 ? y - 1 : 0);
    const auto mean = [by](sf::Uint8 p, sf::Uint8 q) {
      return static_cast<sf::Uint8>(std::lround(p * (1 - by) + q * by));
    };
    return sf::Color(mean(a.r, b.r), mean(a.g, b.g), mean(a.b, b.b));
  };
}

/// Grains of so many steps of brightness, the same each time.
Change grained(int steps) {
  return [steps](const sf::Image& image, unsigned x, unsigned y) {
    const sf::Color c = image.getPixel(x, y);
    const int off = static_cast<int>((x * 73U + y * 151U + x * y * 7U) % 3U) - 1;
    const auto part = [&](sf::Uint8 p) {
      return static_cast<sf::Uint8>(std::clamp(p + off * steps, 0, 255));
    };
    return sf::Color(part(c.r), part(c.g), part(c.b));
  };
}

/// What another machine may do otherwise: smooth edges and letters a quarter of a pixel of the
/// window to the side, and colours a few steps off.
TEST(Likenesses, BearWhatAnotherMachineDoesOtherwise) {
  for (const Kept& kept : kAll) {
    const sf::Image image = kept_picture(kept.name);
    EXPECT_TRUE(likeness(image, image).is_same());
    for (const Change& change : {shifted(0.125), grained(2)}) {
      const Likeness like = likeness(image, changed(image, all_of(image), change));
      EXPECT_TRUE(like.is_same()) << kept.name << ": " << like.text();
    }
  }
}

/// Where parts stand in the kept pictures of a distance. Left out are those that are a few pixels
/// there: drawn_test.cpp has them.
std::vector<std::pair<std::string, Box>> parts_at(View view) {
  const auto installation = bench_scene({}, "technical-school");
  Session session(installation);
  Stage stage(*installation);
  session.seek(kSecond);
  stage.look(session);
  Sight sight(view);
  Layout layout;
  layout.resize({1280, 800});
  sight.travel(view, stage, std::nullopt, layout.canvas(false));
  sight.arrive();
  std::vector<std::pair<std::string, Box>> all;
  for (const Placed& placed : stage.parts()) {
    const PartInstance& part = installation->parts[placed.part];
    if (view == View::kCase && !stands_in_case(part)) continue;
    const auto [low, high] = placed.figure.bounds();
    const Pixel a = sight.camera().pixel(low) * 0.5F, b = sight.camera().pixel(high) * 0.5F;
    constexpr float kLeast = 4;
    if (b.x - a.x < kLeast || b.y - a.y < kLeast) continue;
    const auto whole = [](float v) { return static_cast<int>(std::lround(v)); };
    all.emplace_back(part.name, Box{whole(a.x), whole(a.y), whole(b.x), whole(b.y)});
  }
  return all;
}

/// Of one colour, as it is beside it.
Change wiped_out(const Box& box) {
  return [box](const sf::Image& image, unsigned, unsigned) {
    return image.getPixel(static_cast<unsigned>(std::max(box.left - 1, 0)),
                          static_cast<unsigned>(std::max(box.top - 1, 0)));
  };
}

/// Five pixels of the window to the left.
sf::Color moved(const sf::Image& image, unsigned x, unsigned y) {
  const unsigned right = image.getSize().x - 1;
  const sf::Color a = image.getPixel(std::min(x + 2, right), y);
  const sf::Color b = image.getPixel(std::min(x + 3, right), y);
  const auto mean = [](int p, int q) { return static_cast<sf::Uint8>((p + q) / 2); };
  return {mean(a.r, b.r), mean(a.g, b.g), mean(a.b, b.b)};
}

/// A fifth less bright in red, a fifth more in blue.
sf::Color recoloured(const sf::Image& image, unsigned x, unsigned y) {
  const sf::Color c = image.getPixel(x, y);
  const auto part = [](double p) {
    return static_cast<sf::Uint8>(std::lround(std::clamp(p, 0.0, 255.0)));
  };
  return {part(0.8 * c.r), c.g, part(1.2 * c.b + 8)};
}

TEST(Likenesses, MissNoPartThatIsGoneNorMovedNorOfAnotherColour) {
  for (const Kept& kept : kAll) {
    const std::string view = kept.view;
    if (view != "building" && view != "case") continue;
    const sf::Image image = kept_picture(kept.name);
    for (const auto& [name, box] : parts_at(view == "case" ? View::kCase : View::kBuilding)) {
      const auto tell_apart = [&, &part = name, &place = box](const char* what,
                                                              const Change& change) {
        const Likeness like =
            likeness(piece_of(image, place), piece_of(changed(image, place, change), place));
        EXPECT_FALSE(like.is_same())
            << kept.name << ": " << part << " " << what << " (" << place.right - place.left
            << " by " << place.foot - place.top << "): " << like.text();
      };
      tell_apart("gone", wiped_out(box));
      tell_apart("moved", moved);
      tell_apart("of another colour", recoloured);
    }
  }
}

}  // namespace
}  // namespace sixty::gui
