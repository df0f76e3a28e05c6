#pragma once

#include <optional>
#include <string>
#include <vector>

#include "gui/bench/hunt_notes.hpp"
#include "gui/bench/panel.hpp"

namespace sixty::gui {

/// Where it is told what was noticed: found by everyday words or by a part, then filled in.
class HuntForm {
 public:
  /// Order: within a frame of the panels.
  void show(const Hunter::Form& form, HuntNotes& notes);
  /// What can be told of one part is offered.
  void point_at(PartId part) { part_ = part; }
  /// One is filled in. `checked`: it was looked for on purpose.
  void fill_in(const diagnose::Tellable& told, const Hunter::Form& form, bool checked);
  /// The field for words gets the keys.
  void take_keys() { takes_keys_ = true; }
  const std::string& words() const { return words_; }

 private:
  void show_search(const Hunter::Form& form);
  void show_candidates(const Hunter::Form& form);
  void show_draft(const Hunter::Form& form, HuntNotes& notes);
  void show_place(const Hunter::Form& form);
  void show_amount(const Hunter::Form& form);
  void show_half_day(const Hunter::Form& form);
  void show_answers(const Hunter::Form& form, HuntNotes& notes);

  std::string words_, searched_;
  std::vector<diagnose::Tellable> candidates_;
  std::optional<PartId> part_;
  std::optional<HuntDraft> draft_;
  std::vector<diagnose::Tellable> places_;  ///< where else what is filled in may be
  std::vector<Diagnostic> mistakes_;
  bool takes_keys_ = false;
};

/// The answers so far, each with a button that takes it back.
void show_notes(const Hunter::Form& form, HuntNotes& notes);

}  // namespace sixty::gui
