#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gui/bench/panel.hpp"
#include "gui/keep/settings.hpp"
#include "sim/base/diagnostic.hpp"

namespace sixty::gui {

/// Where scenes and moments are opened and moments saved: a path that completes itself, files
/// opened before, and what is wrong with the one tried last.
class OpenPanel {
 public:
  /// What the window is to do.
  struct Wish {
    std::string open;         ///< this file; empty: none
    std::string save_moment;  ///< as this file; empty: no
    bool close = false;
  };
  /// What was wrong with the file tried last; empty: nothing.
  void tell(const Diagnostics& mistakes) { told_ = mistakes.list(); }
  /// What the file tried last was like is told no more: the panel is opened anew.
  void forget();
  const std::vector<Diagnostic>& told() const { return told_; }
  /// In place of a mistake: what has been done.
  void tell_done(const std::string& what) { done_ = what; }
  /// Order: within a frame of the panels.
  Wish show(const Settings& settings, const sf::FloatRect& box, ImFont* heading);

 private:
  void show_path(Wish& wish);
  void show_recent(const Settings& settings, Wish& wish);
  void show_saving(Wish& wish);
  void show_told() const;

  std::string path_, moment_ = "moment.yaml", done_;
  bool again_ = false;     ///< keys go to the path again
  std::string looked_up_;  ///< for what `candidates_` are
  std::vector<std::string> candidates_;
  std::vector<Diagnostic> told_;
};

}  // namespace sixty::gui
