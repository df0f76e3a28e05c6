// What the window does where something is missing, too small, too large, full or taken away.
#include <gmock/gmock.h>

#include <chrono>
#include <future>
#include <set>

#include "gui/bench/idle.hpp"
#include "gui/keep/settings.hpp"
#include "tests/cli/folder.hpp"
#include "tests/gui/program.hpp"
#include "tests/gui/window_manager.hpp"
#include "tests/gui/worked_window.hpp"

namespace sixty::gui {
namespace {

using testing::HasSubstr;

const std::string kProgram = std::string(SIXTY_BENCH_PROGRAM) + " ";

class Missing : public cli::FolderTest {};

TEST_F(Missing, WithoutADisplayItSaysSo) {
  const Told told = tell("-u DISPLAY", kProgram + scene_file("bench-minimal"));
  EXPECT_EQ(told.exit_code, 3);
  EXPECT_THAT(told.text, HasSubstr("there is no display"));
}

TEST_F(Missing, WithoutOpenGlItSaysSo) {
  const VirtualDisplay plain("GLX");
  ASSERT_FALSE(plain.number().empty());
  const Told told = tell("DISPLAY=:" + plain.number(), kProgram + scene_file("bench-minimal"));
  EXPECT_EQ(told.exit_code, 3);
  EXPECT_THAT(told.text, HasSubstr("the display has no OpenGL"));
}

TEST_F(Missing, WithoutLettersItSaysWhichAndWhatToInstall) {
  put("DejaVuSans.ttf", "no letters");
  put("DejaVuSans-Bold.ttf", "no letters either");
  for (const std::string& there : {folder(), path("nowhere")}) {
    const Told told =
        tell(on_display(), kProgram + scene_file("bench-minimal") + " --fonts " + there);
    EXPECT_EQ(told.exit_code, 3);
    EXPECT_THAT(told.text, HasSubstr(there + "/DejaVuSans"));
    EXPECT_THAT(told.text, HasSubstr("install fonts-dejavu-core"));
  }
}

/// Sees to it that no file gets larger than some blocks of 1024 bytes.
std::string with_full_disk(int blocks, const std::string& command) {
  return "bash -c 'trap \"\" XFSZ; ulimit -f " + std::to_string(blocks) + "; exec " + command + "'";
}

TEST_F(Missing, OnAFullDiskThePictureBeforeStays) {
  put("picture.png", "the one before");
  const Told told = tell(
      on_display(), with_full_disk(8, kProgram + scene_file("bench-minimal") +
                                          " --size 640x480 --screenshot " + path("picture.png")));
  EXPECT_EQ(told.exit_code, 3);
  EXPECT_THAT(told.text, HasSubstr("cannot write"));
  EXPECT_THAT(told.text, HasSubstr("mend:"));
  EXPECT_EQ(get("picture.png"), "the one before");
  EXPECT_EQ(files(), 1U);
}

/// What the program says that is opened, does nothing, and is closed again.
Told opened_and_closed(const std::string& environment) {
  auto told = std::async(std::launch::async, [&] {
    return tell(on_display() + " " + environment,
                kProgram + scene_file("bench-minimal") + " --size 640x480 --at 10s");
  });
  while (told.wait_for(std::chrono::milliseconds(50)) != std::future_status::ready)
    ask_to_close(display().number());
  return told.get();
}

TEST_F(Missing, WhereSettingsCannotBeKeptThatIsToldAtTheEnd) {
  const Told told = opened_and_closed("XDG_CONFIG_HOME=/dev/null");
  EXPECT_EQ(told.exit_code, 0) << told.text;
  EXPECT_THAT(told.text, HasSubstr("/dev/null/sixtybeats"));
  EXPECT_THAT(told.text, HasSubstr("cannot be made"));
}

TEST_F(Missing, SettingsAreKeptWhereTheyCanBe) {
  const Told told = opened_and_closed("XDG_CONFIG_HOME=" + folder());
  EXPECT_EQ(told.exit_code, 0) << told.text;
  EXPECT_THAT(get("sixtybeats/settings.yaml"), HasSubstr("width: 640"));
}

/// Ended from outside, as at a computer's shutdown or by Ctrl-C.
TEST_F(Missing, SettingsAreKeptToWhenTheProgramIsAskedToEnd) {
  for (const char* signal : {"TERM", "INT"}) {
    std::filesystem::remove(path("sixtybeats/settings.yaml"));
    const std::string run = kProgram + scene_file("bench-minimal") + " --size 640x480 --at 10s";
    const std::string line = "bash -c '" + run +
                             " & child=$!; for k in $(seq 200); do sleep 0.1; " +
                             "DISPLAY=:" + display().number() +
                             " xdotool search --onlyvisible --name . && break; done; kill -" +
                             signal + " $child; wait $child'";
    const Told told = tell(on_display() + " XDG_CONFIG_HOME=" + folder(), line);
    EXPECT_EQ(told.exit_code, 0) << signal << told.text;
    EXPECT_THAT(get("sixtybeats/settings.yaml"), HasSubstr("width: 640")) << signal;
  }
}

TEST(Large, AWindowOfFourThousandPixelsIsDrawnToItsEdges) {
  ASSERT_FALSE(display().number().empty());
  const sf::Image image = picture_of(scene_file("technical-school") + " --size 3840x2160 --at 40s");
  ASSERT_EQ(image.getSize(), sf::Vector2u(3840, 2160));
  // Right and foot: the case's frame goes there, and so does the strip of time.
  const auto colours_in = [&](unsigned left, unsigned top, unsigned right, unsigned foot) {
    std::set<sf::Uint32> colours;
    for (unsigned y = top; y < foot; ++y) {
      for (unsigned x = left; x < right; ++x) colours.insert(image.getPixel(x, y).toInteger());
    }
    return colours.size();
  };
  EXPECT_GT(colours_in(2400, 100, 3840, 1800), 200U);
  EXPECT_GT(colours_in(2400, 1850, 3840, 2160), 5U);
}

class Taken : public WorkedWindow {
 protected:
  static void hand_on_window(const std::string& doing) { hand("search --name . " + doing); }
  void some_frames() {
    for (int k = 0; k < 20; ++k) window().step();
  }
};

TEST_F(Taken, AWindowMadeTinyIsBorneAndThenAllIsThereAgain) {
  const double zoom = window().sight().camera().zoom;
  hand("key space");
  for (const char* size : {"80 60", "1 1", "80 2000", "2000 60"}) {
    hand_on_window(std::string("windowsize ") + size);
    hand("mousemove 1 1 click 1 mousemove 40 30 click 1 click 3 click 4 key w key F1");
    some_frames();
    EXPECT_TRUE(std::isfinite(window().sight().camera().zoom));
    EXPECT_GT(window().sight().camera().zoom, 0);
  }
  hand_on_window("windowsize 1280 800");
  hand("key Escape");
  until([&] { return std::fabs(window().sight().camera().zoom / zoom - 1) < 1e-6; });
  const SimTime then = now();
  until([&] { return now() > then; });
}

TEST_F(Taken, ThatIsPutAwayLetsGoAndRunsOnAndComesBack) {
  hand(to_handle("ring_key") + " click 3");
  until([&] { return window().bench().look().selected == part("ring_key"); });
  hand(to_handle("ring_key") + " mousedown 1");
  until([&] { return reading("closed") == 1; });
  hand("key space");
  until([&] { return window().bench().seen().running; });
  hand_on_window("windowunmap");
  until([&] { return reading("closed") == 0; });
  const SimTime then = now();
  until([&] { return now() > then; });
  hand("mouseup 1");
  hand_on_window("windowmap --sync windowfocus --sync");
  hand("key space");
  until([&] { return !window().bench().seen().running; });
}

TEST(IdleWindow, IsLeftAloneOnceNothingStirsAndLookedAtNowAndThen) {
  Idle idle;
  EXPECT_FALSE(idle.rests(true, 0.016F));
  float gone = 0;
  while (!idle.rests(false, 0.016F)) gone += 0.016F;
  EXPECT_NEAR(gone, Idle::kGoesOn_s, 0.02);
  int drawn = 0;
  for (int k = 0; k < 625; ++k) drawn += idle.rests(false, 0.016F) ? 0 : 1;
  EXPECT_GE(drawn, 9);  // in ten seconds
  EXPECT_LE(drawn, 10);
  EXPECT_FALSE(idle.rests(true, 0.016F));
  EXPECT_FALSE(idle.rests(false, 0.016F));
}

TEST_F(Taken, OneThatRestsWakesAtOnce) {
  window();
  // Drawn on for half a second at the most, and then once in a second at the most.
  const auto drawn_in = [&](int steps) {
    const std::uint64_t before = window().frames();
    for (int k = 0; k < steps; ++k) window().step();
    return window().frames() - before;
  };
  drawn_in(120);
  EXPECT_LE(drawn_in(60), 10U);
  hand("key Right");
  EXPECT_GE(drawn_in(3), 3U);
  until([&] { return now() > 10 * kSecond; });
}

}  // namespace
}  // namespace sixty::gui
