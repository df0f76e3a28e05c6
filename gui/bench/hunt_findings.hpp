#pragma once

#include <optional>
#include <string>

#include "gui/bench/hunt_form.hpp"

namespace sixty::gui {

/// How a suspect is shown: its number in a hexagon, filled for the leader.
void show_place_badge(std::size_t place);
/// What tells one proposal from the others of a verdict.
std::string proposal_key(const diagnose::Proposal& proposal);

/// The suspects, the likeliest first, with what speaks for and against the one that is chosen.
class HuntSuspects {
 public:
  /// Returns the part of the suspect that has been chosen now. Order: there is a verdict.
  std::optional<PartId> show(const Hunter::Told& told);

 private:
  void show_one(const Hunter::Told& told, std::size_t place, std::optional<PartId>& chosen);
  std::vector<std::size_t> open_;  ///< of the library: the one or two whose reasons are shown
};

/// That runs are still to be made, if so. Order: there is a verdict.
void show_provisional(const Hunter::Told& told);
/// The leaders alone, in so many lines. Order: there is a verdict.
void show_leaders(const Hunter::Told& told, std::size_t lines);

/// What to ask and to check next, with what it takes; and what was found, filled in or, with a
/// fault that is hidden, looked for.
class HuntChecks {
 public:
  struct Wish {
    const diagnose::Proposal* look = nullptr;   ///< at the hidden fault
    std::optional<diagnose::Tellable> fill_in;  ///< something found at some of several parts
  };
  /// `hidden`: there is a fault to be looked for. Order: there is a verdict.
  Wish show(const Hunter::Told& told, HuntNotes& notes, bool hidden);

 private:
  void show_one(const Hunter::Told& told, const diagnose::Proposal& proposal, HuntNotes& notes,
                bool hidden, Wish& wish);
  void show_results(const Hunter::Told& told, const diagnose::Proposal& proposal, HuntNotes& notes,
                    Wish& wish);
  void show_result(const Hunter::Told& told, const std::vector<std::size_t>& which,
                   const diagnose::Proposal& proposal, HuntNotes& notes, Wish& wish);
  void show_reading(const Hunter::Form& form, const diagnose::Tellable& one, HuntNotes& notes);

  std::string open_;    ///< the check whose results are filled in
  std::string number_;  ///< that a meter reads, as written
  std::string at_;      ///< of which sign
  std::string mistake_;
};

}  // namespace sixty::gui
