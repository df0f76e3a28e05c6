#include "sim/base/diagnostic.hpp"

#include <algorithm>
#include <tuple>

#include "sim/base/text.hpp"

namespace sixty {

namespace {

// Names and texts come from files of strangers: what could steer a terminal is shown escaped.
std::string shown(const std::string& text) { return printable(text, 1000); }

}  // namespace

std::string to_text(const Diagnostic& d) {
  std::string text = d.file.empty() ? "command line" : shown(d.file);
  if (d.line > 0) text += ":" + std::to_string(d.line) + ":" + std::to_string(d.column);
  text += ": " + shown(d.what);
  if (!d.found.empty()) text += "\n  found:    " + shown(d.found);
  if (!d.expected.empty()) text += "\n  expected: " + shown(d.expected);
  if (!d.mend.empty()) text += "\n  mend:     " + shown(d.mend);
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
