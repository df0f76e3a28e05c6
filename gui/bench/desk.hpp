#pragma once

#include "gui/bench/bench.hpp"
#include "gui/bench/card.hpp"
#include "gui/bench/hunt_panel.hpp"
#include "gui/bench/meter_panel.hpp"
#include "gui/bench/part_plot.hpp"
#include "gui/bench/why_panel.hpp"
#include "gui/strip/strip.hpp"

namespace sixty::gui {

/// A scene on the bench with all that is about it alone: another takes its place as a whole.
struct Desk {
  /// Order: `faults` outlives it.
  Desk(const Opening& opening, const FaultBook& faults)
      : bench(opening),
        strip(opening.installation, opening.sound),
        card(faults),
        why(opening.installation, opening.sound),
        meters(opening.installation),
        plot(opening.installation) {
    strip.select(opening.part);
  }
  /// Something on it goes on by itself, or has since it was last shown.
  bool goes_on();

  Bench bench;
  Strip strip;
  Card card;
  WhyPanel why;
  MeterPanel meters;
  PartPlot plot;
  HuntPanel hunt;
};

}  // namespace sixty::gui
