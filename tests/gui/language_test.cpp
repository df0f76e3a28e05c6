// The window in each language: chosen by hand, and with room for its words in every panel.
#include <imgui/imgui.h>
#include <imgui/imgui_internal.h>

#include "gui/bench/language.hpp"
#include "sim/words/words.hpp"
#include "tests/gui/worked_window.hpp"

namespace sixty::gui {
namespace {

class SpokenWindow : public WorkedWindow {
 protected:
  void TearDown() override { speak(languages().front()); }

  void of_size(unsigned width, unsigned height) {
    options_.width = width;
    options_.height = height;
  }
  static bool is_shown(const char* name) {
    const ImGuiWindow* found = ImGui::FindWindowByName(name);
    return found != nullptr && found->WasActive;
  }
};

class EachLanguage : public SpokenWindow, public testing::WithParamInterface<std::string> {
 protected:
  /// No panel is narrower than what is in it.
  void expect_room(const std::string& when) {
    typed("mousemove 640 300");
    for (const ImGuiWindow* one : GImGui->Windows) {
      if (!one->WasActive || (one->Flags & ImGuiWindowFlags_Tooltip) != 0) continue;
      EXPECT_LT(one->ScrollMax.x, 1) << one->Name << ", " << when << ", " << GetParam();
    }
  }

  void look_at_all(const std::string& size) {
    window().begin();
    for (int k = 0; k < 4; ++k) window().step();
    expect_room("greeting, " + size);
    typed("key Escape");
    typed("key space");
    for (const char* key : {"1", "2", "F1", "F5", "i", "o", "n", "f", "F4"}) {
      typed(std::string("key ") + key);
      expect_room(std::string("key ") + key + ", " + size);
      typed("key Escape");
    }
  }
};

TEST_P(EachLanguage, HasRoomForItsWordsInAWindowOfUsualSize) {
  speak(*find_language(GetParam()));
  look_at_all("1280x800");
}

TEST_P(EachLanguage, HasRoomForItsWordsInASmallWindow) {
  of_size(800, 600);
  speak(*find_language(GetParam()));
  look_at_all("800x600");
}

TEST_P(EachLanguage, HasRoomForItsWordsAtTwiceTheSize) {
  of_size(1600, 1200);
  options_.scale = 2;
  speak(*find_language(GetParam()));
  look_at_all("twice the size");
}

TEST_P(EachLanguage, HasRoomOnTheCardOfEachKindOfPart) {
  options_.scene = std::string(SIXTY_SOURCE_DIR) + "/scenes/technical-school.yaml";
  speak(*find_language(GetParam()));
  for (const char* name : {"movement", "arm_a", "rewind", "minute_relay", "tape", "clock_hall"}) {
    const PartId id = part(name);
    window().bench().select(id);
    for (int k = 0; k < 4; ++k) window().step();
    expect_room(name);
  }
}

std::vector<std::string> codes() {
  std::vector<std::string> all;
  for (const Language& language : languages()) all.push_back(language.code);
  return all;
}

INSTANTIATE_TEST_SUITE_P(Shipped, EachLanguage, testing::ValuesIn(codes()),
                         [](const auto& one) { return one.param; });

TEST_F(SpokenWindow, ALanguageIsChosenByAPressOnItsOwnName) {
  window();
  typed("key F5");
  ASSERT_TRUE(window().shows_settings());
  ASSERT_TRUE(press("Settings", {"de", "Deutsch"}, 130));
  EXPECT_EQ(spoken().code, "de");
  EXPECT_EQ(window().settings().language, "de");
  typed("key Escape");
  EXPECT_FALSE(window().shows_settings());
}

TEST_F(SpokenWindow, WhatSoundsIsWrittenOnRequest) {
  window();
  typed("key F5");
  ASSERT_TRUE(press("Settings", {"Write what sounds"}));
  EXPECT_TRUE(window().settings().captions);
  typed("key Escape");
  EXPECT_FALSE(is_shown("captions"));
  typed("key space");
  until([&] { return is_shown("captions"); });
}

TEST_F(SpokenWindow, ViewsChangeAtOnceOnRequest) {
  window();
  typed("key F5");
  ASSERT_TRUE(press("Settings", {"Views change at once"}));
  typed("key Escape");
  typed("key 2");
  hand("key 1");
  const Camera before = window().sight().camera();
  until([&] { return window().sight().camera().zoom != before.zoom; });
  const Camera next = window().sight().camera();
  window().step();
  window().step();
  EXPECT_NEAR(window().sight().camera().zoom, next.zoom, 1e-6 * next.zoom);
}

TEST(ChosenLanguage, IsTheFirstThatIsAskedForAndThere) {
  setenv("LC_ALL", "de_AT.UTF-8", 1);
  EXPECT_EQ(chosen_language("", "").code, "de");
  EXPECT_EQ(chosen_language("", "en").code, "en");
  EXPECT_EQ(chosen_language("de", "en").code, "de");
  EXPECT_EQ(chosen_language("xx", "xx").code, "de");
  setenv("LC_ALL", "C", 1);
  EXPECT_EQ(chosen_language("xx", "").code, "en");
  unsetenv("LC_ALL");
}

}  // namespace
}  // namespace sixty::gui
