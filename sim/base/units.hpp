#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "sim/base/diagnostic.hpp"

namespace sixty {

/// Reads a quantity as people write it, "24 V", "1.5mN.m", "80 kohm", into the unit that the field
/// keeps. A number comes first: digits, perhaps a sign, a decimal point and an exponent; nothing
/// else counts as one (no comma, underscore, hexadecimal or infinity). Then, after at most one
/// space, a unit: names joined by "." and "/", each perhaps with an exponent ("kg.m2", "J/kg/K").
///
/// si_unit is the field's unit: "" or "1" for a plain number (which may be given in % or ppm),
/// otherwise any unit that is_unit() knows. Rules beyond the obvious:
/// - "K" is a temperature and takes "20 degC"; "delta_K" is a difference and takes only kelvins.
/// - "rad" is a dimension of its own, so that "50 Hz" never passes for a speed of rotation.
/// - Things counted ("turn", "row", "cell", "beat", "tooth") are dimensions of their own too; their
///   fields also take a bare number, every other field with a dimension does not.
/// - "s/day" and the like are plain numbers.
/// Units: of si_unit; a decimal prefix shifts the decimal point, so "72.1 ms" is exactly 0.0721.
/// Errors: nothing, with what, found, expected and mend set in `mistake` (its place is left alone).
std::optional<double> parse_quantity(std::string_view text, std::string_view si_unit,
                                     Diagnostic& mistake);

/// The same with the mistake as one line of text.
std::optional<double> parse_quantity(std::string_view text, std::string_view si_unit,
                                     std::string& error);

/// Whether a field may be declared with this unit.
bool is_unit(std::string_view si_unit);

/// What a person might write for such a field, "24 V"; parse_quantity accepts it.
std::string example_quantity(std::string_view si_unit);

/// A quantity to be read by people: up to four significant digits (whole numbers in full) and a
/// prefix or trade unit that suits the size: "24 V", "72.1 ms", "0.136 A", "31.4 mN.m", "15 g",
/// "2 deg", "20 degC". parse_quantity reads it back to that precision.
std::string format_quantity(double si, std::string_view si_unit);

/// The same with another number of significant digits. Range: 1 to 15.
std::string format_quantity(double si, std::string_view si_unit, int digits);

/// The shortest decimal text that reads back as exactly this number.
std::string format_exact(double value);

}  // namespace sixty
