#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace sixty::gui {

/// Leads through the steps of a tour as time of the wall goes by: which is due, how far it is, and
/// whether somebody has stopped it.
class Guide {
 public:
  enum class Way : std::uint8_t {
    kOnce,  ///< stops behind the last step
    kLoop,  ///< begins again, and goes on by itself when nobody has touched it for a while
    kTalk   ///< each step stays until the next is asked for
  };
  /// `lasts_s`: of each step. Range: one at least; `first` is one of them.
  Guide(std::vector<double> lasts_s, Way way, std::size_t first = 0);

  /// Units: s of the wall.
  void pass(double wall_s);
  /// Somebody wants to look around: it stands until it is told to go on.
  void touch();
  /// From the beginning of the step at which it stands; behind the last, of the first.
  void go_on();
  void next();
  void back();

  std::size_t step() const { return step_; }
  std::size_t steps() const { return lasts_s_.size(); }
  /// How far the step is. Range: 0 to 1.
  double share() const;
  /// Of the whole tour. Range: 0 to 1.
  double share_of_all() const;
  bool stands() const { return stands_; }
  bool is_over() const { return over_; }
  bool talks() const { return way_ == Way::kTalk; }
  /// The run is to go on.
  bool runs() const { return !stands_ && !over_ && gone_s_ < lasts_s_[step_]; }
  /// How often a step has begun: whenever it grows, the run is to be put to its beginning.
  std::uint64_t begun() const { return begun_; }

  static constexpr double kPatience_s = 60;  ///< untouched for so long, a loop goes on

 private:
  void begin(std::size_t step);

  std::vector<double> lasts_s_;
  Way way_;
  std::size_t step_ = 0;
  double gone_s_ = 0, untouched_s_ = 0;
  bool stands_ = false, over_ = false;
  std::uint64_t begun_ = 0;
};

}  // namespace sixty::gui
