// Panels that open, write and keep, worked by a pointer in a window that nobody sees.
#include <gmock/gmock.h>
#include <imgui/imgui.h>

#include <filesystem>

#include "gui/bench/form_panel.hpp"
#include "gui/bench/open_panel.hpp"
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

}  // namespace
}  // namespace sixty::gui
