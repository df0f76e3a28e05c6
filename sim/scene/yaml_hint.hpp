#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace sixty {

/// A place in a text. Line and column count from 1, columns in bytes.
struct TextPlace {
  int line = 1;
  int column = 1;
};
TextPlace place_of(std::string_view text, std::size_t offset);

/// The likely cause of a syntax error, which often lies before the place where a parser noticed it.
struct YamlHint {
  std::size_t offset = 0;
  std::string what;
  std::string mend;
};

/// Looks for what usually stops a parser before `error_line`: a tab in the indentation, or a
/// bracket that is never closed or closed by the other kind. Only for a text that has been refused
/// already: it guesses where flow begins, and a guess must not refuse anything.
std::optional<YamlHint> find_yaml_hint(std::string_view text, int error_line);

/// Whether the quotes that open at `offset` are closed; true if no quotes open there. (The parser
/// takes an unclosed one to the end of the file without a word.)
bool quotes_are_closed(std::string_view text, std::size_t offset);

}  // namespace sixty
