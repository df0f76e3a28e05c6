#pragma once

#include <map>
#include <memory>
#include <utility>
#include <vector>

#include "gui/bench/bench.hpp"
#include "gui/bench/neighbours.hpp"
#include "gui/bench/panel.hpp"
#include "gui/bench/values_panel.hpp"
#include "sim/scene/fault.hpp"

namespace sixty::gui {

/// Where a reading lies beside a sound twin's, in a room that its name shares with both numbers.
struct BesideTwin {
  bool is_name_alone = false;  ///< on a line of its own, above the numbers
  float now_ends = 0;          ///< from the room's left
};
/// The twin's number ends with the room, and is in a column as wide as most numbers are; where it
/// is wider, the other stands before it. Units: pixels.
BesideTwin beside_twin(float room, float column, float name, float now, float twin);

/// An order for an instrument at a part, as its card offers it: "Volts, coil" for
/// "V:hall_clock.coil".
std::string words_of_order(const std::string& order);

/// What the quantity of a command can be set out from.
struct Offered {
  double number = 0;
  bool is_present = false;  ///< the command sets it, and it stands so now
};
/// The present value of what the command declares to set: as a hand last set it, else the part's
/// value or reading; or else the reading that it begins with, a default or the range's middle.
/// `readings`: of the part, may be none. Range: the command has an argument. Units: SI.
Offered offered_for(const Installation& installation, PartId part, std::size_t command,
                    const std::vector<Action>& log, SimTime now,
                    const std::vector<double>& readings);

/// The card of the part that is selected: what it is and does, its readings, what a hand can do to
/// it, and what can be wrong with it.
class Card {
 public:
  /// Order: `faults` outlives it.
  explicit Card(const FaultBook& faults) : faults_(faults) {}
  /// `scene`: the file that is open. Range: a part is selected.
  Wishes show(Bench& bench, const sf::FloatRect& box, ImFont* heading, const std::string& scene);
  /// What meters read that are laid on at the part, a line each.
  void set_measured(std::vector<std::string> lines) { measured_ = std::move(lines); }
  /// A data sheet of the owner's that was to be kept in the last show().
  std::optional<OwnSheet> take_sheet() { return std::exchange(sheet_, std::nullopt); }
  /// What became of it; nothing is wrong: it was kept.
  void tell_sheet(const std::vector<Diagnostic>& mistakes) { values_.tell(mistakes); }

 private:
  /// What it keeps of what was chosen for a part.
  struct Kept {
    struct Choice {
      std::shared_ptr<const Fault> fault;
      double severity = 0;
      bool drawn = false;  ///< its slider is held
    };
    std::vector<std::string> arguments;  ///< of its commands, as written; empty: as offered
    std::vector<Choice> faults;          ///< that it can have
    Neighbours neighbours;
    std::vector<std::string> orders;  ///< of what can be measured at it
  };
  Kept& kept(const Bench& bench, PartId part);
  void show_title(const PartInstance& part, float high) const;
  void show_readings(const Bench& bench, PartId part) const;
  std::optional<PartId> show_neighbours(const Bench& bench, PartId part);
  std::string show_orders(const Bench& bench, PartId part);
  void show_commands(Bench& bench, PartId part);
  void show_command(Bench& bench, PartId part, std::size_t command);
  void show_faults(Bench& bench, PartId part);
  static void show_severity(Bench& bench, PartId part, Kept::Choice& choice, double in_force);
  static void show_fault(Bench& bench, PartId part, Kept::Choice& choice);

  const FaultBook& faults_;
  ImFont* heading_ = nullptr;
  ValuesPanel values_;
  std::optional<OwnSheet> sheet_;
  std::map<PartId, Kept> kept_;
  std::vector<std::string> measured_;
};

}  // namespace sixty::gui
