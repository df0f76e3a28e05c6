#pragma once

#include <string>
#include <vector>

#include "gui/bench/hunt_notes.hpp"
#include "gui/bench/panel.hpp"

namespace sixty::gui {

/// Where it is told what is known before anything is looked at: how old it is, when it was
/// serviced, the weather, what was done lately.
class HuntKnown {
 public:
  /// Order: within a frame of the panels.
  void show(const Hunter::Form& form, HuntNotes& notes);

 private:
  void show_ages(const Hunter::Form& form, HuntNotes& notes);
  void show_weather(const Hunter::Form& form, HuntNotes& notes);
  void show_done(HuntNotes& notes);
  void show_draft(const Hunter::Form& form, HuntNotes& notes);
  bool take(const diagnose::Beforehand& changed, const Hunter::Form& form, HuntNotes& notes);

  std::string age_, serviced_;  ///< as they are being written
  diagnose::Beforehand::Happened draft_;
  std::vector<Diagnostic> mistakes_;
  std::uint64_t version_ = UINT64_MAX;  ///< of the notes that the fields are of
};

}  // namespace sixty::gui
