#pragma once

#include <memory>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "gui/bench/options.hpp"
#include "gui/bench/runner.hpp"
#include "sim/scene/injection.hpp"

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
  void hover(std::optional<PartId> part, Pixel pointer) {
    look_.hovered = part;
    look_.pointer = pointer;
  }
  /// What of the window no panel covers.
  void set_clear(Pixel low, Pixel high) {
    look_.clear_low = low;
    look_.clear_high = high;
  }
  /// Nothing tells what is wrong, nor gives it away: for hunting faults.
  void hide_wrong(bool hides);
  void select(std::optional<PartId> part);

  void toggle_running() { runner_.set_running(!seen_.running); }
  void change_speed(int steps);
  /// Hands do nothing from now on, for this reason; empty: they do as they like.
  void hold_hands(const std::string& why) { hands_held_ = why; }
  /// Why a hand that would have done something did nothing, once.
  std::string take_refusal() { return std::exchange(refusal_, ""); }
  /// Takes the last deed back.
  void undo();
  /// With what severity a fault has been put in and not been cleared, by now; nothing: it is not.
  std::optional<double> severity_of(PartId part, const Fault& fault) const;
  /// Puts a fault in, or in again with another severity, now; or clears it.
  void put_fault(PartId part, std::shared_ptr<const Fault> fault, double severity);
  void clear_fault(PartId part, std::shared_ptr<const Fault> fault);
  /// A hand works a command of a part, now. Units: SI.
  void command(PartId part, std::size_t command, double value);
  /// The same by its name. Range: the part has it.
  void command(PartId part, const std::string& command, double value);

 private:
  bool hands_are_held();
  void act(Action action);
  void act_on_fault(PartId part, std::shared_ptr<const Fault> fault, Injection injection,
                    bool clears);

  std::shared_ptr<const Installation> installation_;
  Runner runner_;
  Runner::Seen seen_;
  Look look_;
  std::string hands_held_, refusal_;
  std::size_t speed_;  ///< place in the list of speeds
};

}  // namespace sixty::gui
