#include "sim/scene/mistakes.hpp"

#include <utility>

#include "sim/base/text.hpp"

namespace sixty {

void Mistakes::add(const Place& place, Mistake mistake) {
  diagnostics_.add({place.file, place.line, place.column, std::move(mistake.what),
                    printable(mistake.found), std::move(mistake.expected),
                    std::move(mistake.mend)});
}

void Mistakes::add_unknown(const Place& place, const std::string& kind, std::string_view name,
                           const std::vector<std::string>& candidates) {
  std::string mend;
  if (suggestions_left_ > 0) {
    --suggestions_left_;
    mend = did_you_mean(name, candidates);
  }
  const std::string shown(name);
  add(place,
      {"there is no " + kind + " of this name", shown,
       candidates.empty() ? "none: there are no such names here" : "one of: " + listed(candidates),
       candidates.empty() ? "leave it out" : mend});
}

std::string listed(const std::vector<std::string>& names) {
  constexpr std::size_t kMost = 12;
  std::string text;
  for (std::size_t i = 0; i < names.size() && i < kMost; ++i)
    text += (i == 0 ? "" : ", ") + names[i];
  return names.size() > kMost ? text + ", ..." : text;
}

}  // namespace sixty
