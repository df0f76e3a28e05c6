#pragma once

#include <optional>
#include <string>

#include "gui/keep/form.hpp"

namespace sixty::gui {

/// Fills the gaps of a form's scene. <<NAME>> is a field, <<= SUM>> what a sum comes to, to one
/// decimal. Lines that begin with "% " are not written:
///   % each GROUP ... % end        once for each entry
///   % when CONDITION ... % end    "FIELD is VALUE"; or a group or field that is not empty
///   % let NAME = SUM              a number to be used further on
///   % need SUM : SENTENCE         refuses, with the sentence, what comes to less than nothing
/// Errors: nothing, reported.
std::optional<std::string> fill_gaps(const std::string& scene, const FormGroup& whole,
                                     const FormEntry& filled, Diagnostics& mistakes);

}  // namespace sixty::gui
