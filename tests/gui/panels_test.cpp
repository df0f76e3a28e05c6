// Panels that open, write and keep, worked by a pointer in a window that nobody sees.
#include <gmock/gmock.h>
#include <imgui/imgui.h>
#include <imgui/imgui_internal.h>

#include <filesystem>

#include "gui/bench/form_panel.hpp"
#include "gui/bench/open_panel.hpp"
#include "gui/bench/panel.hpp"
#include "gui/bench/values_panel.hpp"
#include "tests/cli/folder.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

const ImVec2 kSize{900, 860};

/// Panels without a window: letters are laid out, and nothing is drawn.
class PanelsTest : public cli::FolderTest {
 protected:
  void SetUp() override {
    cli::FolderTest::SetUp();
    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = kSize;
    unsigned char* pixels = nullptr;
    int width = 0, height = 0;
    io.Fonts->GetTexDataAsRGBA32(&pixels, &width, &height);
    before_ = std::filesystem::current_path();
    std::filesystem::current_path(folder());
  }
  void TearDown() override {
    std::filesystem::current_path(before_);
    ImGui::DestroyContext();
    cli::FolderTest::TearDown();
  }

  /// One frame, with the pointer there.
  template <class Show>
  auto frame(ImVec2 pointer, bool down, Show show) {
    ImGuiIO& io = ImGui::GetIO();
    io.DeltaTime = 0.02F;
    io.MousePos = pointer;
    io.MouseDown[0] = down;
    ImGui::NewFrame();
    auto wish = show(ImGui::GetFont());
    ImGui::Render();
    return wish;
  }
  template <class Show>
  auto click(ImVec2 at, Show show) {
    frame(at, false, show);
    frame(at, false, show);
    frame(at, true, show);
    return frame(at, false, show);
  }

 private:
  std::filesystem::path before_;
};

TEST_F(PanelsTest, TheFormWritesASceneAndHasItOpened) {
  FormPanel panel(all_forms().at(0), all_parts());
  const auto show = [&](ImFont* font) { return panel.show({0, 0, kSize.x, kSize.y}, font, ""); };
  const ImVec2 write(kSize.x - 60, kSize.y - 28);
  EXPECT_EQ(click(write, show).open, "own-installation.yaml");
  Diagnostics mistakes;
  EXPECT_NE(load_scene(path("own-installation.yaml"), all_parts(), {}, mistakes), nullptr)
      << mistakes.to_text();
  // Again, now as a scene that is there, with a line of the owner's.
  const std::string by_hand = get("own-installation.yaml") + "# by hand\n";
  put("own-installation.yaml", by_hand);
  EXPECT_EQ(click(write, show).open, "own-installation.yaml");
  EXPECT_EQ(get("own-installation.yaml"), by_hand);
  // A new one does not take its place.
  panel.begin_new();
  EXPECT_EQ(click(write, show).open, "");
  EXPECT_EQ(get("own-installation.yaml"), by_hand);
}

TEST_F(PanelsTest, TheFormKeepsWhatWasFilledInWhereASceneIsNotItsOwn) {
  FormPanel panel(all_forms().at(0), all_parts());
  const FormEntry before = panel.filled();
  panel.begin_with(SIXTY_SOURCE_DIR "/scenes/corner-school.yaml");
  EXPECT_EQ(panel.filled(), before);
  panel.begin_with(path("nothing.yaml"));
  EXPECT_EQ(panel.filled(), before);
}

TEST_F(PanelsTest, TheFormTellsWhyAFileCannotBeWritten) {
  FormPanel panel(all_forms().at(0), all_parts());
  const auto show = [&](ImFont* font) { return panel.show({0, 0, kSize.x, kSize.y}, font, ""); };
  std::filesystem::current_path("/proc");  // where nobody makes a file
  EXPECT_EQ(click({kSize.x - 60, kSize.y - 28}, show).open, "");
  ASSERT_EQ(panel.refused().size(), 1U);
  EXPECT_THAT(panel.refused()[0].what, testing::HasSubstr("No such file or directory"));
}

/// Words of the panel, as they are laid out from above to below.
std::size_t letters_of(const char* window) {
  const ImGuiWindow* panel = ImGui::FindWindowByName(window);
  return panel == nullptr ? 0 : static_cast<std::size_t>(panel->DrawList->VtxBuffer.Size);
}

/// What is written over a value and is none is refused in the row of that value.
TEST_F(PanelsTest, AValueThatIsNoneIsRefusedBelowItself) {
  const auto scene = bench_scene();
  const PartInstance& relay = *scene->find("minute_relay");
  ValuesPanel panel;
  const auto show = [&](ImFont*) {
    const Panel values("values", {0, 0, kSize.x, kSize.y});
    return panel.show(relay, scene->name);
  };
  for (int k = 0; k < 3; ++k) frame({-1, -1}, false, show);
  const ImGuiWindow* window = ImGui::FindWindowByName("values");
  const float before = window->ContentSize.y;
  const std::size_t letters = letters_of("values");
  // The first field of the table: its text is taken whole by a double click.
  float y = 60;
  for (; y < 400 && !ImGui::GetIO().WantTextInput; y += 8) click({kSize.x - 100, y}, show);
  ASSERT_TRUE(ImGui::GetIO().WantTextInput);
  ImGui::GetIO().AddInputCharactersUTF8("nonsense");
  for (int k = 0; k < 4; ++k) frame({-1, -1}, false, show);
  EXPECT_GT(window->ContentSize.y, before + ImGui::GetTextLineHeight());
  EXPECT_GT(letters_of("values"), letters + 4 * 40);
}

TEST_F(PanelsTest, AFileOpenedBeforeIsOpenedByAClick) {
  OpenPanel panel;
  Settings settings;
  settings.recent = {"/somewhere/first.yaml"};
  const auto show = [&](ImFont* font) {
    return panel.show(settings, {0, 0, kSize.x, kSize.y}, font);
  };
  std::string opened;
  for (float y = 60; y < 160 && opened.empty(); y += 6) opened = click({40, y}, show).open;
  EXPECT_EQ(opened, "/somewhere/first.yaml");
}

TEST_F(PanelsTest, TheOwnersSheetTellsWhoFoundItsValues) {
  std::filesystem::copy_file(SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml", path("scene.yaml"));
  const OwnSheet own{"minute_relay",
                     "own_relay",
                     {{"resistance", "123.5 ohm"}},
                     {"the caretaker", "May", "by bridge"},
                     false};
  Diagnostics mistakes;
  const auto files =
      with_own_sheet(own, get("scene.yaml"), path("scene.yaml"), all_parts(), mistakes);
  ASSERT_TRUE(files && save_own_sheet(*files, path("scene.yaml"), all_parts(), mistakes));
  const auto scene = load_scene(path("scene.yaml"), all_parts(), {}, mistakes);
  ASSERT_NE(scene, nullptr) << mistakes.to_text();
  const SheetSources sources = sources_of(*scene->find("minute_relay"), path("scene.yaml"));
  EXPECT_EQ(sources.lines.at("resistance").value, "123.5 ohm");
  EXPECT_THAT(sources.lines.at("resistance").source, testing::HasSubstr("the caretaker"));
}

TEST_F(PanelsTest, WhatIsTypedOnceFilesAreShownIsThePathToOpen) {
  OpenPanel panel;
  const auto show = [&](ImFont* font) { return panel.show({}, {0, 0, kSize.x, kSize.y}, font); };
  const ImVec2 away{-1, -1};
  for (int k = 0; k < 3; ++k) frame(away, false, show);
  ImGui::GetIO().AddInputCharactersUTF8("/somewhere/else.yaml");
  frame(away, false, show);
  ImGuiIO& io = ImGui::GetIO();
  io.KeyMap[ImGuiKey_Enter] = 1;
  io.KeysDown[1] = true;
  const OpenPanel::Wish wish = frame(away, false, show);
  EXPECT_EQ(wish.open, "/somewhere/else.yaml");
  EXPECT_EQ(wish.save_moment, "");
}

TEST_F(PanelsTest, KeysGoIntoThePathAgainOnceItWasRefused) {
  OpenPanel panel;
  const auto show = [&](ImFont* font) { return panel.show({}, {0, 0, kSize.x, kSize.y}, font); };
  const ImVec2 away{-1, -1};
  ImGuiIO& io = ImGui::GetIO();
  io.KeyMap[ImGuiKey_Enter] = 1;
  for (int k = 0; k < 3; ++k) frame(away, false, show);
  std::string path;
  for (const char* typed : {"/nowhere/one.yam", "l"}) {
    path += typed;
    io.AddInputCharactersUTF8(typed);
    frame(away, false, show);
    io.KeysDown[1] = true;
    EXPECT_EQ(frame(away, false, show).open, path);
    io.KeysDown[1] = false;
    for (int k = 0; k < 3; ++k) frame(away, false, show);
  }
}

TEST_F(PanelsTest, APanelLaidOverOthersIsNotCoveredByThem) {
  bool floats = true;
  const auto show_all = [&](bool over) {
    return [&, over](ImFont*) {
      { const Panel beside("beside", {100, 100, 300, 300}); }
      ImGui::SetNextWindowPos({100, 100});
      {
        const FloatingPanel floating("floating", floats, 200, 200);
        ImGui::Dummy({100, 140});
      }
      if (over) const Panel laid("over", {0, 0, 500, 500}, Panel::Lies::kOver);
      return std::string(GImGui->HoveredWindow == nullptr ? "" : GImGui->HoveredWindow->Name);
    };
  };
  const ImVec2 on_floating{150, 150}, on_beside{350, 350};
  for (int k = 0; k < 3; ++k) frame(on_floating, false, show_all(false));
  EXPECT_EQ(frame(on_floating, false, show_all(false)), "floating");
  for (int k = 0; k < 3; ++k) frame(on_floating, false, show_all(true));
  EXPECT_EQ(frame(on_floating, false, show_all(true)), "over");
  EXPECT_EQ(frame(on_beside, false, show_all(true)), "over");
}

}  // namespace
}  // namespace sixty::gui
