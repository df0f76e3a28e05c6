#pragma once

#include <optional>
#include <vector>

#include "gui/paint/painter.hpp"
#include "gui/views/stage.hpp"

namespace sixty::gui {

/// A sound installation at the same moment.
struct Twin {
  std::vector<Figure> figures;  ///< of the stage's parts, in their order
  std::vector<double> readings, lanes;
};

/// What is shown of the stage at one moment.
struct Picture {
  SimTime at = 0;
  Stage stage;
  std::uint64_t begun = 0;  ///< number of the run that was begun last (Runner::begin)
  std::uint64_t state = 0;  ///< hash of all state
  PartId watched = 0;       ///< whose readings these are
  std::vector<double> readings;
  std::vector<double> lanes;  ///< readings of the lanes that were asked for, as they are now
  std::optional<Twin> twin;
};

/// From how far it is looked at.
enum class View : std::uint8_t { kBuilding, kCase, kPart };

struct Look {
  std::optional<PartId> hovered, selected;
  Pixel pointer{-1, -1};        ///< near which the hovered part's name is told
  Pixel clear_low, clear_high;  ///< what no panel covers; nothing: the whole window
  bool hides_wrong = false;     ///< nothing tells what is wrong: for hunting faults
};

/// The parts of a stage that are drawn, from where it is looked at: not what is out of sight, nor
/// what hangs in rooms while the case fills the window.
class Drawn {
 public:
  void add(PartId part) {
    if (part >= is_drawn_.size()) is_drawn_.resize(part + 1);
    is_drawn_[part] = true;
  }
  bool has(PartId part) const { return part < is_drawn_.size() && is_drawn_[part]; }

 private:
  std::vector<bool> is_drawn_;
};

/// Paints building, wires, case and parts. Returns which parts. Range: the stage is of that
/// installation.
Drawn paint_stage(const Stage& stage, const Installation& installation, const Look& look,
                  Painter& painter);

/// Cameras of the three distances, for a window of that size. Units: pixels.
Camera building_camera(const Stage& stage, Pixel size);
Camera case_camera(const Stage& stage, Pixel size);
/// Range: the part is on the stage; else that of the case.
Camera part_camera(const Stage& stage, PartId part, Pixel size);

}  // namespace sixty::gui
