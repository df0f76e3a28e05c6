#pragma once

#include <cstddef>
#include <set>
#include <string>
#include <string_view>
#include <vector>

#include "sim/base/diagnostic.hpp"

namespace sixty {

/// Where something was written; no file means the command line, and there which option.
struct Place {
  std::string file;
  int line = 0, column = 0;
  std::string option = {};
};

/// A word as a person wrote it, where it stands, and what it is for ("lamp.resistance").
struct Written {
  std::string label;
  std::string text;
  Place place;
};

/// "lamp.resistance: out of range"; what is wrong alone if the word bears no label.
std::string labelled(const Written& written, const std::string& what);

/// What is said of one mistake, besides its place.
struct Mistake {
  std::string what, found, expected, mend;
};

/// Collects mistakes while reading goes on. What is written once and read for many parts (the
/// template of a line) is reported for the first of them alone.
class Mistakes {
 public:
  explicit Mistakes(Diagnostics& diagnostics) : diagnostics_(diagnostics) {}
  void add(const Place& place, Mistake mistake);
  /// `holder` ("lamp_1", or empty for the scene) has nothing of this kind ("output") and name:
  /// lists what there is, and the one that was perhaps meant.
  void add_unknown(const Place& place, const std::string& holder, const std::string& kind,
                   const std::string& name, const std::vector<std::string>& candidates);
  /// How many so far, in this and in earlier readings.
  std::size_t count() const { return diagnostics_.list().size(); }
  Diagnostics& diagnostics() { return diagnostics_; }

 private:
  bool is_new(const Place& place, const Mistake& mistake);
  void report(const Place& place, Mistake mistake);

  Diagnostics& diagnostics_;
  std::set<std::string> reported_;  ///< what was said at which place of a file, but for who has it
  // Seeking the nearest of thousands of names for each of thousands of mistakes would seem to hang.
  int suggestions_left_ = 100;
};

/// "a", "b" -> "a, b"; what is beyond a dozen is left out.
std::string listed(const std::vector<std::string>& names);

/// The names of things declared, for add_unknown().
template <class Decl>
std::vector<std::string> names_of(const std::vector<Decl>& declarations) {
  std::vector<std::string> names;
  for (const Decl& d : declarations) names.push_back(d.name);
  return names;
}

/// Index of the thing of that name, or the number of things if there is none.
template <class Decl>
std::size_t index_of(const std::vector<Decl>& declarations, std::string_view name) {
  std::size_t i = 0;
  while (i < declarations.size() && declarations[i].name != name) ++i;
  return i;
}

}  // namespace sixty
