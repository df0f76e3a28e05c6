#include "gui/bench/start_panel.hpp"

#include <array>

#include "gui/bench/panel.hpp"

namespace sixty::gui {
namespace {

struct Offer {
  Beginning beginning;
  const char* name;
  const char* what;
};

constexpr std::array kOffers{
    Offer{Beginning::kTour, "The tour", "Three minutes, for a beginning"},
    Offer{Beginning::kMinute, "One minute, slowed", "The chain of causes, step by step"},
    Offer{Beginning::kLessons, "Lessons", "Learn it: think first, then see"},
    Offer{Beginning::kLookAround, "Look around", "Press any part: what it does"},
    Offer{Beginning::kOpen, "Open", "Another scene, a kept moment"},
    Offer{Beginning::kOwn, "Your own", "Describe it in a form"},
    Offer{Beginning::kKeys, "Keys", "All of them on one page"}};

}  // namespace

std::optional<Beginning> show_start(const std::string& title, bool& again, const sf::FloatRect& box,
                                    ImFont* heading) {
  const Panel panel("start", box);
  show_heading(heading, title.c_str());
  ImGui::TextWrapped("Each swing, current and stroke that is seen here is being computed.");
  ImGui::Spacing();
  std::optional<Beginning> chosen;
  // Where there is no room for all words, a pointer gets them: an offer that is not seen is worse.
  constexpr float kHigh = 34, kLow = 23, kLeastForWords = 607;
  const bool has_room = box.height >= kLeastForWords;
  const float high = has_room ? kHigh : kLow;
  for (const Offer& offer : kOffers) {
    if (ImGui::Button(offer.name, {ImGui::GetContentRegionAvail().x, high}))
      chosen = offer.beginning;
    if (has_room)
      show_second(offer.what);
    else
      show_tip(offer.what);
  }
  ImGui::Separator();
  ImGui::Checkbox("Greet me the next time too", &again);
  return chosen;
}

}  // namespace sixty::gui
