#pragma once

#include <memory>
#include <string>
#include <vector>

#include "sim/scene/draft.hpp"
#include "sim/scene/fault.hpp"

namespace sixty {

/// A fault put into one part.
struct Injection {
  std::shared_ptr<const Fault> fault;
  PartId part = 0;
  double severity = 0.5;  ///< Range: above 0; as written up to 1
  Course course;
};

/// Reads "ID@PART[:SEVERITY][,from=TIME][,until=TIME][,course=...]": when it is put in and, with
/// `until`, when it is cleared. Errors: nothing, reported.
std::vector<Action> read_fault(const Written& written, const Draft& draft, const FaultBook& book,
                               Mistakes& mistakes);

/// Whether the part can have it, and be so in a running installation. Errors: reported.
void check_fault(const Action& action, const Written& written, const Installation& installation,
                 Mistakes& mistakes);

/// Adds the faults that a scene and the command line ask for to the installation's script.
void add_faults(const Draft& draft, const Registry& registry, Installation& installation,
                Mistakes& mistakes);

}  // namespace sixty
