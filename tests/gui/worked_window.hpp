#pragma once

#include <gtest/gtest.h>
#include <imgui/imgui_internal.h>

#include <cmath>
#include <cstdlib>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "gui/bench/window.hpp"
#include "models/part_list.hpp"
#include "tests/gui/virtual_display.hpp"

namespace sixty::gui {

/// Some test has driven a display's driver, which keeps some bytes of its own for good.
inline bool drives_a_display = false;

/// A real window, worked with real presses and keys; what they do is read from the run.
class WorkedWindow : public testing::Test {
 protected:
  void SetUp() override {
    drives_a_display = true;
    ASSERT_FALSE(display().number().empty());
    setenv("DISPLAY", (":" + display().number()).c_str(), 1);
    options_.scene = std::string(SIXTY_SOURCE_DIR) + "/scenes/bench-minimal.yaml";
    options_.at = "10s";
  }

  Window& window() {
    if (window_ == nullptr) {
      Diagnostics mistakes;
      const Opening opening = open_scene(options_, registry_, mistakes);
      EXPECT_TRUE(mistakes.empty()) << mistakes.to_text();
      window_ = std::make_unique<Window>(options_, opening, registry_);
      window_->open();
      window_->step();
      hand("search --sync --onlyvisible --name . windowfocus --sync");
    }
    return *window_;
  }

  /// Presses and keys, as of a hand.
  static void hand(const std::string& doing) {
    const std::string line = "timeout 20 xdotool " + doing + " > /dev/null 2>&1";
    EXPECT_EQ(std::system(line.c_str()), 0) << doing;
  }

  /// The same, and the window has taken it.
  void typed(const std::string& doing) {
    hand(doing);
    for (int k = 0; k < 5; ++k) window().step();
  }

  /// Lets the window go on until it is so. Whatever does not come in a thousand frames never does.
  void until(const std::function<bool()>& is_so) {
    for (int k = 0; k < 1000 && !is_so(); ++k) window().step();
    EXPECT_TRUE(is_so());
  }

  /// Opens a view with the twin, and returns its card's readings beside the twin's.
  const ImGuiTable* readings_beside_twins(const std::string& view, const std::string& at) {
    options_.at = at;
    options_.view = view;
    window();
    typed("key h");
    until([&] { return window().bench().picture().twin.has_value(); });
    for (int k = 0; k < 3; ++k) window().step();
    const ImGuiTable* readings = nullptr;
    ImGuiContext& context = *ImGui::GetCurrentContext();
    for (int k = 0; k < context.Tables.GetMapSize(); ++k) {
      const ImGuiTable* table = context.Tables.TryGetMapData(k);
      if (table != nullptr && table->ColumnsCount == 1) readings = table;
    }
    return readings;
  }

  PartId part(const char* name) { return window().bench().installation().find_id(name).value(); }
  SimTime now() { return window().bench().picture().at; }

  double reading(const char* name) {
    const Picture& picture = window().bench().picture();
    const auto& readings =
        window().bench().installation().parts[picture.watched].kind->declaration.readings;
    for (std::size_t k = 0; k < picture.readings.size(); ++k) {
      if (readings[k].name == name) return picture.readings[k];
    }
    return std::nan("");
  }

  /// The middle of a part's handle, as the pointer is sent there.
  std::string to_handle(const char* name) {
    const Placed* placed = window().bench().stage().find(part(name));
    EXPECT_FALSE(placed == nullptr || placed->figure.handles().empty());
    const Handle& handle = placed->figure.handles().front();
    const Pixel at = window().sight().camera().pixel((handle.corner + handle.opposite) * 0.5);
    return "mousemove " + std::to_string(std::lround(at.x)) + " " +
           std::to_string(std::lround(at.y));
  }

  /// Puts the pointer on a button of a window whose name has this in it, and presses. `x`: within
  /// that window, where its column of buttons is. `button`: its label, behind those of what it lies
  /// in. Returns whether it was found.
  bool press(const std::string& window_name, const std::vector<std::string>& button, float x = 30) {
    typed("mousemove 640 8");  // it has been shown by now
    for (float y = 4; y < 560; y += 7) {
      const ImGuiWindow* found = nullptr;
      for (ImGuiWindow* one : GImGui->Windows) {
        if (one->WasActive && std::string(one->Name).find(window_name) != std::string::npos)
          found = one;
      }
      if (found == nullptr || y > found->Size.y) return false;
      ImGuiID id = found->ID;
      for (const std::string& piece : button) id = ImHashStr(piece.c_str(), 0, id);
      typed("mousemove " + std::to_string(std::lround(found->Pos.x + x)) + " " +
            std::to_string(std::lround(found->Pos.y + y)));
      if (GImGui->HoveredIdPreviousFrame != id) continue;
      typed("click 1");
      return true;
    }
    return false;
  }

  Options options_;

 private:
  Registry registry_ = models::registry();
  std::unique_ptr<Window> window_;
};

}  // namespace sixty::gui
