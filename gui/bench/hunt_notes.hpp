#pragma once

#include <string>
#include <vector>

#include "gui/bench/hunter.hpp"
#include "sim/base/diagnostic.hpp"

namespace sixty::gui {

/// What was noticed, in the order in which it was told, and every change to it, to be taken back.
class HuntNotes {
 public:
  using Observations = std::vector<diagnose::Observation>;
  /// What was told at once: one thing, or all that a check has shown.
  struct Entry {
    std::string title;  ///< of a check; empty: the observations speak for themselves
    Observations observations;
  };

  const std::vector<Entry>& entries() const { return entries_; }
  /// What is known beforehand.
  const diagnose::Beforehand& known() const { return known_; }
  void set_known(diagnose::Beforehand known);
  /// All of them, as they are weighed, with what is known beforehand.
  Observations all() const;
  void add(Entry entry);
  /// The same for several that speak for themselves, as one change.
  void add_each(const Observations& observations);
  void take_out(std::size_t entry);
  /// In place of all that was there: each alone, and what was known with them.
  void replace(const Observations& observations);
  /// As it was before the last change.
  void undo();
  bool can_undo() const { return !before_.empty(); }
  /// Another one after each change.
  std::uint64_t version() const { return version_; }

 private:
  void begin_change();

  struct Before {
    std::vector<Entry> entries;
    diagnose::Beforehand known;
  };
  std::vector<Entry> entries_;
  diagnose::Beforehand known_;
  std::vector<Before> before_;
  std::uint64_t version_ = 0;
};

/// One observation as it is filled in, all as written.
struct HuntDraft {
  diagnose::Tellable told;
  std::string answer = "yes";  ///< yes, no, or not looked at
  std::string measure;         ///< about, at_least, at_most, reads; empty: no amount
  std::string amount;
  bool only_some = false, checked = false;
  std::size_t span = 0;  ///< half day of the watch; 0: the whole
};
/// What it says. Errors: nothing, and what does not fit, in `mistakes`.
std::optional<diagnose::Observation> observation_of(const HuntDraft& draft,
                                                    const Hunter::Form& form,
                                                    Diagnostics& mistakes);

/// What is known beforehand, as it stands in such a file; of an empty text nothing. Errors:
/// nothing, reported.
std::optional<diagnose::Beforehand> read_known(const std::string& text, const Hunter::Form& form,
                                               Diagnostics& mistakes);

/// The notes as a file of observations.
std::string notes_text(const HuntNotes& notes, const Hunter::Form& form);
/// Reads such a file. Errors: nothing, reported with places; nothing is taken of a file with a
/// mistake.
std::optional<HuntNotes::Observations> read_notes(const std::string& path, const Hunter::Form& form,
                                                  Diagnostics& mistakes);

}  // namespace sixty::gui
