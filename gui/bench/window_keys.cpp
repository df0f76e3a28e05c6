// The page of keys.
#include <array>

#include "gui/bench/window.hpp"

namespace sixty::gui {
namespace {

struct Told {
  const char* key;
  const char* does;
};

constexpr std::array kRun{Told{"space", "run or pause"},
                          Told{"left, right arrow", "to the event before, to the next"},
                          Told{"shift with them", "to where something begins"},
                          Told{"up, down arrow", "faster, slower"},
                          Told{"S", "stretch: slow round what happens"},
                          Told{"G", "go to a time"},
                          Told{"ctrl Z", "take the last deed back"}};
constexpr std::array kLook{Told{"1, 2, 3", "building, case, part"},
                           Told{"wheel, drag", "nearer, and about"},
                           Told{"press", "a part's card, or its handle"},
                           Told{"other button", "the card of a part with a handle"},
                           Told{"L", "the strip of time"},
                           Told{"wheel on it, + and -", "more or less time"},
                           Told{"drag it", "through time"},
                           Told{"shift drag, M", "markers"},
                           Told{"T", "dark or light"}};
constexpr std::array kAsk{Told{"W", "why, of the selected part"},
                          Told{"other button on a lane", "why, at that time"},
                          Told{"H", "a sound twin beside it"},
                          Told{"X", "hide what is wrong, for hunting"},
                          Told{"I", "instruments"},
                          Told{"P", "keep a picture"},
                          Told{"O, N", "files, a new installation"},
                          Told{"F2, F3", "the tour; the same for a talk"},
                          Told{"Esc", "close, and look at the whole"},
                          Told{"F1", "this page"}};

template <std::size_t N>
void column(ImFont* font, const char* heading, const std::array<Told, N>& keys) {
  ImGui::TableNextColumn();
  show_heading(font, heading);
  for (const Told& told : keys) {
    ImGui::TextUnformatted(told.key);
    ImGui::TextDisabled("    %s", told.does);
  }
}

}  // namespace

void Window::show_keys() {
  const Pixel s = size();
  ImGui::SetNextWindowPos({s.x / 2, s.y / 2}, ImGuiCond_Always, {0.5F, 0.5F});
  ImGui::SetNextWindowSize({std::min(s.x - 20, 860.0F), std::min(s.y - 20, 560.0F)});
  ImGui::PushStyleVar(ImGuiStyleVar_WindowBorderSize, 1);
  ImGui::Begin("Keys", &keys_page_,
               ImGuiWindowFlags_NoResize | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoCollapse |
                   ImGuiWindowFlags_NoSavedSettings);
  if (ImGui::BeginTable("keys", 3)) {
    column(panels_->heading(), "Time", kRun);
    column(panels_->heading(), "Looking", kLook);
    column(panels_->heading(), "Asking", kAsk);
    ImGui::EndTable();
  }
  ImGui::End();
  ImGui::PopStyleVar();
}

}  // namespace sixty::gui
