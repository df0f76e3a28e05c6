#pragma once

#include <string>
#include <string_view>
#include <vector>

/// Just enough reading of C++ for the rules: words, identifiers and includes of a line.
namespace sixty::style {

bool starts_with(std::string_view text, std::string_view head);
bool ends_with(std::string_view text, std::string_view tail);

std::vector<std::string> lines_of(std::string_view text);

/// The name between the marks of an #include line, with its opening mark in front: `"a.hpp` or
/// `<a`. Empty when the line is no include.
std::string_view included_name(std::string_view line);

/// All words of a text in lower case, cut at every mark, underscore and hump: "relayState of_it"
/// gives relay, state, of, it.
std::vector<std::string> words_of(std::string_view text);

struct Identifier {
  std::string_view name;
  bool is_member;     ///< stands after a dot or an arrow
  bool is_qualified;  ///< stands after a double colon
  bool is_called;     ///< with at least one argument
};

/// Every identifier of a line of code; the names point into the line.
std::vector<Identifier> identifiers_of(std::string_view line);

/// The text with comments and literals blanked out; line breaks stay where they are.
std::string code_only(std::string_view text);

}  // namespace sixty::style
