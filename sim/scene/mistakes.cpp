#include "sim/scene/mistakes.hpp"

#include <utility>

#include "sim/base/text.hpp"

namespace sixty {

std::string labelled(const Written& written, const std::string& what) {
  return written.label.empty() ? what : written.label + ": " + what;
}

// The command line's mistakes have no place, and are all different.
bool Mistakes::is_new(const Place& place, const Mistake& mistake) {
  if (place.line == 0) return true;
  std::string key =
      place.file + ":" + std::to_string(place.line) + ":" + std::to_string(place.column);
  for (const std::string* text : {&mistake.found, &mistake.expected, &mistake.mend})
    key += "\n" + *text;
  return reported_.insert(std::move(key)).second;
}

void Mistakes::add(const Place& place, Mistake mistake) {
  if (is_new(place, mistake)) report(place, std::move(mistake));
}

void Mistakes::report(const Place& place, Mistake mistake) {
  const std::string head = place.option.empty() ? "" : place.option + ": ";
  diagnostics_.add({place.file, place.line, place.column, head + mistake.what,
                    printable(mistake.found), std::move(mistake.expected),
                    std::move(mistake.mend)});
}

void Mistakes::add_unknown(const Place& place, const std::string& holder, const std::string& kind,
                           const std::string& name, const std::vector<std::string>& candidates) {
  Mistake mistake;
  mistake.what = (holder.empty() ? "there is no " : holder + " has no ") + kind + " \"" +
                 printable(name, 60) + "\"";
  mistake.found = name;
  mistake.expected =
      candidates.empty() ? "nothing; there is none" : "one of: " + listed(candidates);
  if (!is_new(place, mistake)) return;
  if (suggestions_left_ > 0) {
    --suggestions_left_;
    mistake.mend = did_you_mean(name, candidates);
  }
  if (mistake.mend.empty())
    mistake.mend = candidates.empty() ? "leave it out" : "choose one of these";
  report(place, std::move(mistake));
}

std::string listed(const std::vector<std::string>& names) {
  constexpr std::size_t kMost = 12;
  std::string text;
  for (std::size_t i = 0; i < names.size() && i < kMost; ++i)
    text += (i == 0 ? "" : ", ") + names[i];
  return names.size() > kMost ? text + ", ..." : text;
}

}  // namespace sixty
