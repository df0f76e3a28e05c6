#pragma once

#include <cstdint>
#include <future>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "gui/exhibit/poster.hpp"
#include "gui/staff/pin.hpp"
#include "sim/exhibit/exhibit.hpp"

namespace sixty::gui {

/// The way in for staff, behind a corner that is held or keys, and a PIN; and what they can do
/// there. It knows what was pressed, not where it stands.
class StaffPage {
 public:
  enum class Wish : std::uint8_t { kNone, kQuieter, kLouder, kOutOfOrder, kEnd };

  /// `gate`: as PinGate::line() had it when it was kept. Order: the door outlives it.
  StaffPage(const exhibit::StaffDoor& door, const std::string& gate)
      : door_(door), gate_(PinGate::from_line(gate)) {}

  /// How long the corner has been held by now. Units: s of the wall.
  void hold(double held_s, std::int64_t now);
  /// Somebody asks for it: a PIN is wanted, or, where there is none, it is open.
  void knock(std::int64_t now);
  /// Time of the wall goes by; left alone, it shuts. `now`: unix seconds. Returns whether the gate
  /// has been tried: its line is to be kept.
  bool pass(double wall_s, std::int64_t now);
  /// Range: of buttons(); others are none.
  Wish press(std::size_t button, std::int64_t now);

  bool is_shown() const { return at_ != At::kShut; }
  bool is_open() const { return at_ == At::kOpen; }
  std::vector<Button> buttons(bool out_of_order) const;
  std::string head() const;
  /// While a PIN is asked for: what has been typed, as dots, or how long it waits.
  std::string text() const;
  std::string gate_line() const { return gate_.line(); }

  static constexpr double kShutsAfter_s = 60;

 private:
  enum class At : std::uint8_t { kShut, kDoor, kOpen };
  Wish press_digit(std::size_t button, std::int64_t now);

  const exhibit::StaffDoor& door_;
  PinGate gate_;
  At at_ = At::kShut;
  std::string typed_;
  bool was_wrong_ = false;
  std::int64_t wait_s_ = 0;
  double still_s_ = 0;
  std::future<std::pair<PinTry, PinGate>> trying_;  ///< it takes longer than a frame
};

/// Where so many buttons stand, and words above them. Units: pixels.
struct StaffPlan {
  sf::FloatRect words;
  std::vector<sf::FloatRect> buttons;
  StaffPlan(std::size_t count, Pixel size, const ScreenSizes& sizes);
};

}  // namespace sixty::gui
