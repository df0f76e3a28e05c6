#pragma once

#include <optional>
#include <string>
#include <vector>

namespace sixty::gui {

/// The lines of a text, without their ends.
std::vector<std::string> lines_of(const std::string& text);

/// Two changes of one text put together, line by line.
struct Merged {
  std::string text;
  int conflict_line = 0;  ///< of `ours`, from 1, where both changed the same otherwise; 0: nowhere
};

/// What was changed from `base` to `theirs`, done to `ours`: lines that ours has more stay before
/// or behind what theirs changed, and so does a comment ("  # ...") behind a line. Errors: nothing
/// for texts of very many lines.
std::optional<Merged> merge_lines(const std::string& base, const std::string& ours,
                                  const std::string& theirs);

}  // namespace sixty::gui
