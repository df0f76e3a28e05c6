#include "sim/base/diagnostic.hpp"

#include <algorithm>
#include <tuple>

namespace sixty {

std::string to_text(const Diagnostic& d) {
  std::string text = d.file.empty() ? "command line" : d.file;
  if (d.line > 0) text += ":" + std::to_string(d.line) + ":" + std::to_string(d.column);
  text += ": " + d.what;
  if (!d.found.empty()) text += "\n  found:    " + d.found;
  if (!d.expected.empty()) text += "\n  expected: " + d.expected;
  if (!d.mend.empty()) text += "\n  mend:     " + d.mend;
  return text;
}

std::string Diagnostics::to_text() const {
  std::vector<Diagnostic> sorted = list_;
  std::stable_sort(sorted.begin(), sorted.end(), [](const Diagnostic& a, const Diagnostic& b) {
    return std::tie(a.file, a.line, a.column) < std::tie(b.file, b.line, b.column);
  });
  std::string text;
  for (const Diagnostic& d : sorted) text += sixty::to_text(d) + "\n";
  return text;
}

}  // namespace sixty
