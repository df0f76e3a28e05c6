#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sixty {

/// Of ASCII alone, whatever the locale.
constexpr bool is_digit(char c) { return c >= '0' && c <= '9'; }
constexpr bool is_letter(char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'); }
constexpr char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

/// The candidate that `name` was most likely meant to be: fewest letters changed, added, left out
/// or swapped, a change of case counting half. Nothing if all are too different to be of help; of
/// two equally near the first given, so that a message never depends on chance.
std::optional<std::string> nearest_name(std::string_view name,
                                        const std::vector<std::string>& candidates);

/// "did you mean "resistance"?" or an empty text, to put into Diagnostic::mend.
std::string did_you_mean(std::string_view name, const std::vector<std::string>& candidates);

/// Where the first byte stands that is not well-formed UTF-8 (overlong forms, surrogates and what
/// lies above U+10FFFF are not either); std::string_view::npos when all is well.
/// Source: The Unicode Standard, table of well-formed UTF-8 byte sequences (from memory).
std::size_t find_invalid_utf8(std::string_view text);

/// The text without spaces and line ends at either end: a block of YAML ends with one.
std::string trimmed_block(const std::string& text);
/// The text without spaces at either end.
std::string_view trimmed(std::string_view text);
std::string trimmed(const std::string& text);
/// Its pieces between the separators, each trimmed; at least one.
std::vector<std::string> pieces_of(const std::string& text, char separator);

/// The text as it may be shown in a message: control characters and broken UTF-8 written as \n,
/// \t or \x1b, and what is longer than `max_bytes` cut, with "..." for the rest.
std::string printable(std::string_view text, std::size_t max_bytes = 120);

/// The text as YAML has it between double quotes.
std::string in_quotes(std::string_view text);

/// "error_min" -> "error min", "loop_ends" -> "Loop ends" if `capital`.
std::string words_of_key(std::string_view key, bool capital = false);

/// "604,812".
std::string grouped(std::int64_t number);

/// "12 %", "< 1 %". Range: a share, 0 to 1.
std::string percent(double share);

/// "1 ring", "12 rings", "0 rings": things counted, for a sentence. Range: nouns that take an s.
std::string counted(std::int64_t number, std::string_view noun);

/// "never", "once", "12 times".
std::string times(std::int64_t number);

/// "never rang", "rang once", "rang 12 times".
std::string happened(std::string_view what, std::int64_t number);

}  // namespace sixty
