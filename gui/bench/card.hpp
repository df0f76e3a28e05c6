#pragma once

#include <map>
#include <memory>
#include <vector>

#include "gui/bench/bench.hpp"
#include "gui/bench/panel.hpp"
#include "sim/scene/fault.hpp"

namespace sixty::gui {

/// The card of the part that is selected: what it is and does, its readings, what a hand can do to
/// it, and what can be wrong with it.
class Card {
 public:
  /// Order: `faults` outlives it.
  explicit Card(const FaultBook& faults) : faults_(faults) {}
  /// Range: a part is selected.
  Wishes show(Bench& bench, const sf::FloatRect& box, ImFont* heading);

 private:
  /// What it keeps of what was chosen for a part.
  struct Kept {
    struct Choice {
      std::shared_ptr<const Fault> fault;
      double severity = 0;
      bool put_in = false;
    };
    std::vector<double> arguments;  ///< of its commands
    std::vector<Choice> faults;     ///< that it can have
  };
  Kept& kept(const Bench& bench, PartId part);
  void show_readings(const Bench& bench, PartId part) const;
  void show_commands(Bench& bench, PartId part);
  void show_faults(Bench& bench, PartId part);
  static void put_fault(Bench& bench, PartId part, const Kept::Choice& choice);

  const FaultBook& faults_;
  ImFont* heading_ = nullptr;
  std::map<PartId, Kept> kept_;
};

}  // namespace sixty::gui
