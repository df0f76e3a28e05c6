#pragma once

#include <SFML/Graphics/Rect.hpp>
#include <cstdint>
#include <optional>
#include <string>

struct ImFont;

namespace sixty::gui {

/// What a newcomer can begin with.
enum class Beginning : std::uint8_t { kTour, kMinute, kLessons, kLookAround, kOpen, kOwn, kKeys };

/// Greets whoever opens the bench, in the card's place, until something is chosen. `again`: whether
/// it is to greet the next time too. Order: within a frame of the panels.
std::optional<Beginning> show_start(const std::string& title, bool& again, const sf::FloatRect& box,
                                    ImFont* heading);

}  // namespace sixty::gui
