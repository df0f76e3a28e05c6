#pragma once

#include <optional>
#include <string>

#include "sim/scene/hookup.hpp"
#include "sim/scene/mistakes.hpp"

namespace sixty::instruments {

/// A piece of an order, and the whole of it for messages.
struct Asked {
  std::string piece;
  const Written& whole;
};

/// Number of the part of that name. Errors: nothing, reported.
std::optional<PartId> read_part(const Asked& asked, const Installation& installation,
                                Mistakes& mistakes);

/// Where two tips are laid on: a part that has two ends ("lamp_1"), a pair of its terminals by the
/// word that they share ("lamp_1.left" for left_a and left_b), or two terminals
/// ("lamp_1.left_a..lamp_2.b").
/// Errors: nothing, reported.
std::optional<Hookup> read_two(const Asked& asked, const Installation& installation,
                               Mistakes& mistakes);

/// The wire into which an ammeter is led: one terminal, or the first of a pair.
/// Errors: as read_two().
std::optional<Hookup> read_wire(const Asked& asked, const Installation& installation,
                                Mistakes& mistakes);

}  // namespace sixty::instruments
