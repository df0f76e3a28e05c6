#pragma once

#include <string>
#include <vector>

namespace sixty {

/// One mistake in something a person wrote: where it stands, what was found, what was expected
/// and how to mend it. Line and column count from 1; 0 means "not in a file" (command line).
struct Diagnostic {
  std::string file;
  int line = 0;
  int column = 0;
  std::string what;      ///< the mistake in one clause
  std::string found;     ///< the offending text, may be empty
  std::string expected;  ///< what would have been right, may be empty
  std::string mend;      ///< what to do about it, may be empty
};

/// "file:line:column: what" and indented found/expected/mend lines; each a single line, with
/// control characters escaped.
std::string to_text(const Diagnostic& diagnostic);

/// All mistakes of one reading; a reader goes on after a mistake so that all come in one go.
class Diagnostics {
 public:
  void add(Diagnostic diagnostic) { list_.push_back(std::move(diagnostic)); }
  bool empty() const { return list_.empty(); }
  const std::vector<Diagnostic>& list() const { return list_; }
  /// All of them as text, in order of file, line, column.
  std::string to_text() const;

 private:
  std::vector<Diagnostic> list_;
};

}  // namespace sixty
