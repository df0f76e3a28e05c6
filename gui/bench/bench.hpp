#pragma once

#include <memory>
#include <optional>
#include <vector>

#include "gui/bench/options.hpp"
#include "gui/bench/runner.hpp"
#include "sim/scene/fault.hpp"

namespace sixty::gui {

/// A scene on the bench: its run, and what of it is looked at. All panels share it.
class Bench {
 public:
  explicit Bench(const Opening& opening);
  const Installation& installation() const { return *installation_; }
  const std::shared_ptr<const Installation>& shared_installation() const { return installation_; }
  Runner& runner() { return runner_; }
  /// The latest picture that was taken.
  const Runner::Seen& seen() const { return seen_; }
  const Picture& picture() const { return *seen_.picture; }
  const Stage& stage() const { return seen_.picture->stage; }
  void take() { seen_ = runner_.see(); }
  /// One that shows everything asked for so far.
  void take_all() { seen_ = runner_.see_all(); }

  const Look& look() const { return look_; }
  void hover(std::optional<PartId> part) { look_.hovered = part; }
  void select(std::optional<PartId> part);

  void toggle_running() { runner_.set_running(!seen_.running); }
  void change_speed(int steps);
  /// A hand works a command of a part, now. Units: SI.
  void command(PartId part, std::size_t command, double value);
  /// The same by its name. Range: the part has it.
  void command(PartId part, const std::string& command, double value);

 private:
  std::shared_ptr<const Installation> installation_;
  Runner runner_;
  Runner::Seen seen_;
  Look look_;
  std::size_t speed_;  ///< place in the list of speeds
};

}  // namespace sixty::gui
