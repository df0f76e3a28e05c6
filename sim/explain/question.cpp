#include "sim/explain/question.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/scene/script.hpp"

namespace sixty::explain {
namespace {

constexpr const char* kForm =
    "KIND PART @ TIME, as sixtybeats events lists them, or an everyday word: ring zone-2 @ TIME";

/// As people write one name in several ways: "Zone-2" and "zone 2" are "zone_2".
std::string plain_name(std::string_view text) {
  std::string name(trimmed(text));
  for (char& c : name) {
    c = c == '-' || c == ' ' ? '_' : static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  }
  return name;
}

/// Kinds of event of a part that a word asks for: those of that name, and those called so.
std::vector<std::string> kinds_of(const std::string& word, const Declaration& declaration) {
  std::vector<std::string> kinds;
  for (const auto& [called, kind] : declaration.called_kinds) {
    if (called == word) kinds.push_back(kind);
  }
  const std::vector<std::string> all = declaration.event_kinds();
  if (std::find(all.begin(), all.end(), word) != all.end()) kinds.push_back(word);
  return kinds;
}

std::vector<std::string> words_of(const Declaration& declaration) {
  std::vector<std::string> words = declaration.event_kinds();
  for (const auto& [called, kind] : declaration.called_kinds) words.push_back(called);
  return words;
}

/// What a part has in common with others, as a person names it: "zone_2", "first_floor", a room.
std::vector<std::string> shared_names(const PartInstance& part) {
  std::vector<std::string> names;
  if (!part.room.empty()) names.push_back(plain_name(part.room));
  for (const ParamDecl& decl : part.kind->declaration.params) {
    const Value& value = part.values.at(decl.name);
    if (decl.kind == ParamKind::kCount)
      names.push_back(plain_name(decl.name + " " + format_exact(value.number)));
    if (decl.kind == ParamKind::kText && !value.text.empty())
      names.push_back(plain_name(value.text));
  }
  return names;
}

bool shares(const PartInstance& part, const std::string& name) {
  const std::vector<std::string> names = shared_names(part);
  return std::find(names.begin(), names.end(), name) != names.end();
}

/// All that one name means: a part, or those that share it and have such a kind of event.
std::vector<Asked> parts_meant(const std::string& word, const std::string& name,
                               const Installation& scene) {
  std::vector<Asked> meant;
  for (PartId p = 0; p < scene.parts.size(); ++p) {
    const PartInstance& part = scene.parts[p];
    const bool is_it = plain_name(part.name) == name;
    if (!is_it && !shares(part, name)) continue;
    std::vector<std::string> kinds = kinds_of(word, part.kind->declaration);
    if (is_it) meant.clear();
    if (!kinds.empty()) meant.push_back({p, std::move(kinds)});
    if (is_it) break;
  }
  return meant;
}

void report_unknown(const std::string& word, const std::string& name, const Written& written,
                    const Installation& scene, Mistakes& mistakes) {
  const auto report = [&](const std::string& holder, const std::string& kind,
                          const std::string& what, const std::vector<std::string>& candidates) {
    mistakes.add_unknown(written.place, written.label + holder, kind, what, candidates);
  };
  std::vector<std::string> names;
  std::vector<std::string> words;
  for (const PartInstance& part : scene.parts) {
    if (plain_name(part.name) == name) {
      report(": " + part.name, "kind of event", word, words_of(part.kind->declaration));
      return;
    }
    names.push_back(part.name);
    if (!shares(part, name)) continue;
    const std::vector<std::string> known = words_of(part.kind->declaration);
    words.insert(words.end(), known.begin(), known.end());
  }
  if (words.empty()) {
    report(": the scene", "part, room or group", name, names);
  } else {
    std::sort(words.begin(), words.end());
    words.erase(std::unique(words.begin(), words.end()), words.end());
    report(": " + name, "kind of event", word, words);
  }
}

/// A minute, if no seconds are named.
void set_span(Question& q, const CivilClock& clock) {
  constexpr SimTime kAbout = 30 * kSecond;
  const bool minute = calendar_time(clock, q.at).ns_of_day % kMinute == 0;
  q.from = std::max<SimTime>(q.at - (minute ? kSecond : kAbout), 0);
  q.to = q.at + (minute ? kMinute : kAbout);
}

}  // namespace

Question read_question(const Written& written, const Installation& scene, Mistakes& mistakes) {
  const std::string& text = written.text;
  Question q;
  const std::size_t at = text.find(" @ ");
  const std::size_t space = text.find(' ');
  if (at == std::string::npos || space >= at) {
    mistakes.add(written.place, {labelled(written, "this asks about no event"), text, kForm,
                                 "write it like \"starts hall_clock @ Mon 10:15:35\""});
    return q;
  }
  const std::string word = plain_name(text.substr(0, space));
  const std::string name = plain_name(text.substr(space + 1, at - space - 1));
  q.any = parts_meant(word, name, scene);
  if (q.any.empty()) report_unknown(word, name, written, scene, mistakes);
  q.at = read_time(text.substr(at + 3), scene.clock, 0, written, mistakes).value_or(0);
  set_span(q, scene.clock);
  return q;
}

}  // namespace sixty::explain
