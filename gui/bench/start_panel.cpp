#include "gui/bench/start_panel.hpp"

#include <array>

#include "gui/bench/panel.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

struct Offer {
  Beginning beginning;
  const char* name;
  const char* what;
};

constexpr std::array kOffers{
    Offer{Beginning::kTour, to_tr("The tour"), to_tr("Three minutes, for a beginning")},
    Offer{Beginning::kMinute, to_tr("One minute, slowed"),
          to_tr("The chain of causes, step by step")},
    Offer{Beginning::kLessons, to_tr("Lessons"), to_tr("Learn it: think first, then see")},
    Offer{Beginning::kLookAround, to_tr("Look around"), to_tr("Press any part: what it does")},
    Offer{Beginning::kOpen, "Open", to_tr("Another scene, a kept moment")},
    Offer{Beginning::kOwn, to_tr("Your own"), to_tr("Describe it in a form")},
    Offer{Beginning::kKeys, to_tr("Keys"), to_tr("All of them on one page")}};

}  // namespace

std::optional<Beginning> show_start(const std::string& title, bool& again, const sf::FloatRect& box,
                                    ImFont* heading) {
  const Panel panel("start", box);
  show_heading(heading, title.c_str());
  ImGui::TextWrapped("%s",
                     tr("Each swing, current and stroke that is seen here is being computed."));
  ImGui::Spacing();
  std::optional<Beginning> chosen;
  // Where there is no room for all words, a pointer gets them: an offer that is not seen is worse.
  constexpr float kHigh = 34, kLow = 23, kLeastForWords = 607;
  const bool has_room = box.height >= kLeastForWords;
  const float high = has_room ? kHigh : kLow;
  for (const Offer& offer : kOffers) {
    const bool opens = offer.beginning == Beginning::kOpen;
    const char* name = opens ? tr_as("button", "Open") : tr(offer.name);
    if (ImGui::Button(name, {ImGui::GetContentRegionAvail().x, high})) chosen = offer.beginning;
    if (has_room)
      show_second(tr(offer.what));
    else
      show_tip(tr(offer.what));
  }
  ImGui::Separator();
  ImGui::Checkbox(tr("Greet me the next time too"), &again);
  return chosen;
}

}  // namespace sixty::gui
