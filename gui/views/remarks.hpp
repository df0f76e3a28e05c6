#pragma once

#include "gui/paint/painter.hpp"
#include "gui/views/stage.hpp"

namespace sixty::gui {

/// What is wrong, told by form and words rather than by colour: a double diamond round the thing,
/// and a flag with a triangle, down for what lags, up for what is ahead, a square for what stands
/// still. Flags that would meet become one, with how many they are.
class Remarks {
 public:
  /// `only_case`: of parts in the case, or of all.
  Remarks(const Stage& stage, const Installation& installation, bool only_case,
          const Painter& painter);
  /// Behind the figures.
  void paint_diamonds(Painter& painter) const;
  /// In front of them.
  void paint_flags(Painter& painter) const;

  struct Flag {
    Remark::Lean lean = Remark::Lean::kLow;
    std::string text;
    Pixel low, high;
    std::vector<std::string> all;  ///< of those that it stands for
    Pixel around;                  ///< sum of the places of those
  };
  const std::vector<Flag>& flags() const { return flags_; }

 private:
  struct Diamond {
    Pixel at;
    float radius = 0;
  };
  void merge();

  float em_ = 0;
  Pixel window_;
  std::vector<Diamond> diamonds_;
  std::vector<Flag> flags_;
};

/// "3 min slow" alone; "4 x 3 min slow" where they are alike; else from the least to the most: "4 x
/// 2 to 5 min slow".
std::string merged_text(std::vector<std::string> texts);

}  // namespace sixty::gui
