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
  for (const Offer& offer : kOffers) {
    constexpr float kHigh = 34;
    if (ImGui::Button(offer.name, {ImGui::GetContentRegionAvail().x, kHigh}))
      chosen = offer.beginning;
    show_second(offer.what);
  }
  ImGui::Separator();
  ImGui::Checkbox("Greet me the next time too", &again);
  return chosen;
}

}  // namespace sixty::gui
