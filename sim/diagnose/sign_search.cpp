#include "sim/diagnose/sign_search.hpp"

#include <algorithm>
#include <cctype>
#include <set>

#include "sim/base/text.hpp"
#include "sim/words/words.hpp"

namespace sixty::diagnose {
namespace {

using Words = std::vector<std::string>;

// Of one word of a question: what it is worth where it is met (judgement).
constexpr double kExact = 4, kAbout = 2, kBegun = 1, kMistyped = 0.8;
constexpr double kNamed = 0.5;  // more, for a place whose whole name is among the words
constexpr std::size_t kLeastBegun = 3, kLeastMistyped = 5;
constexpr double kPerWord = 100;  // one more word met goes before all else

/// Words that say nothing about which sign or place is meant.
const std::set<std::string, std::less<>> kEmptyWords = {
    "a",     "an",   "and",  "are", "at",  "be", "been", "by",    "does", "do",   "every",
    "for",   "from", "he",   "her", "his", "i",  "in",   "is",    "it",   "its",  "my",
    "of",    "on",   "or",   "our", "she", "so", "that", "the",   "them", "then", "there",
    "these", "they", "this", "to",  "was", "we", "were", "which", "with"};

// Lists of words that are searched for; a language may have others, and more.
/// Numbers of floors as people say them, from the ground floor on.
constexpr const char* kOrdinals = to_tr("ground first second third fourth fifth");
constexpr const char* kAbove = to_tr("upstairs upper above");
constexpr const char* kOnGround = to_tr("downstairs");
constexpr const char* kBelow = to_tr("downstairs cellar basement");
constexpr const char* kUpper = to_tr("upper above");
constexpr const char* kFloors = to_tr("floors");

/// Without the endings that number and time give: "rings", "ringing" and "ring" are one.
std::string stem(std::string word) {
  const auto ends = [&](std::string_view ending) {
    return word.size() > ending.size() + 2 &&
           word.compare(word.size() - ending.size(), ending.size(), ending) == 0;
  };
  if (ends("ss")) return word;
  for (const char* ending : {"ing", "ies", "es", "ed", "s"}) {
    if (!ends(ending)) continue;
    word.resize(word.size() - std::string_view(ending).size());
    break;
  }
  const std::size_t n = word.size();  // "stopp" is "stop"
  if (n > 3 && word[n - 1] == word[n - 2] && word[n - 1] != 'l' && word[n - 1] != 's')
    word.pop_back();
  if (word.size() > 3 && word.back() == 'e') word.pop_back();
  return word;
}

Words words_of(std::string_view text) {
  Words words;
  std::string word;
  const auto end = [&] {
    if (!word.empty()) words.push_back(stem(word));
    word.clear();
  };
  unsigned char before = 0;
  for (const char c : text) {
    const auto u = static_cast<unsigned char>(c);
    if (before == 0xC3 && u >= 0x80 && u <= 0x9E)  // from A with grave to thorn in UTF-8
      word += static_cast<char>(u + 0x20);
    else if (std::isalnum(u) != 0 || u >= 0x80)
      word += static_cast<char>(std::tolower(u));
    else
      end();
    before = u;
  }
  end();
  return words;
}

/// Those of the spoken language that say nothing, besides the English ones.
Words empty_words() {
  return words_of(tr_as("words that tell nothing in a search", "a the is of"));
}

void append(Words& all, const Words& more) { all.insert(all.end(), more.begin(), more.end()); }

bool has(const Words& words, const std::string& word) {
  return std::find(words.begin(), words.end(), word) != words.end();
}

/// Whether one letter too many, too few or another makes one of the other, or two that have changed
/// places.
bool nearly_same(const std::string& a, const std::string& b) {
  if (a.size() > b.size()) return nearly_same(b, a);
  if (b.size() < kLeastMistyped || b.size() - a.size() > 1) return false;
  std::size_t same = 0;
  while (same < a.size() && a[same] == b[same]) ++same;
  const std::size_t skip = a.size() == b.size() ? 1 : 0;
  if (skip == 1 && same + 1 < a.size() && a[same] == b[same + 1] && a[same + 1] == b[same])
    return a.compare(same + 2, std::string::npos, b, same + 2) == 0;
  return same == a.size() || a.compare(same + skip, std::string::npos, b, same + 1) == 0;
}

/// What one word of the question is worth with an entry's words.
double met(const std::string& word, const std::vector<const Words*>& exact,
           const std::vector<const Words*>& about) {
  const auto holds = [&](const Words* words) { return has(*words, word); };
  if (std::any_of(exact.begin(), exact.end(), holds)) return kExact;
  if (std::any_of(about.begin(), about.end(), holds)) return kAbout;
  double best = 0;
  const auto nearly = [&](const Words& words, double share) {
    for (const std::string& known : words) {
      const bool begun = word.size() >= kLeastBegun && known.rfind(word, 0) == 0;
      if (begun) best = std::max(best, share * kBegun);
      if (nearly_same(word, known)) best = std::max(best, share * kMistyped);
    }
  };
  for (const Words* words : exact) nearly(*words, 1);
  for (const Words* words : about) nearly(*words, kAbout / kExact);
  return best;
}

/// How near it is to what people mean when they name no place.
int breadth(Place::Kind kind) {
  switch (kind) {
    case Place::Kind::kAll:
      return 0;
    case Place::Kind::kGroup:
      return 1;
    case Place::Kind::kFloor:
      return 2;
    case Place::Kind::kRoom:
      return 3;
    case Place::Kind::kPart:
      return 4;
  }
  return 5;
}

const Room* room_of(const Installation& installation, PartId part) {
  for (const Room& room : installation.rooms) {
    if (room.name == installation.parts[part].room) return &room;
  }
  return nullptr;
}

const char* height_of_floor(int floor) {
  if (floor == 0) return kOnGround;
  return floor > 0 ? kAbove : kBelow;
}

/// Whether the program's own words are in a place's name, and not only those of the scene.
bool has_own_words(Place::Kind kind) {
  return kind != Place::Kind::kPart && kind != Place::Kind::kRoom;
}

std::string listed(const std::vector<std::string>& words) {
  std::string list;
  for (const std::string& word : words) list += (list.empty() ? "" : ", ") + word;
  return list;
}

}  // namespace

SignSearch::SignSearch(const Installation& installation, const std::vector<SignAt>& signs)
    : installation_(installation), signs_(signs) {
  std::vector<Place> places = places_of(installation);
  // Of several names for the same parts one is offered: a part's own, or else the broadest.
  const auto rank = [](const Place& p) {
    return p.kind == Place::Kind::kPart ? -1 : breadth(p.kind);
  };
  std::stable_sort(places.begin(), places.end(),
                   [&](const Place& a, const Place& b) { return rank(a) < rank(b); });
  std::set<std::vector<std::size_t>> known;
  for (const Place& place : places) {
    std::vector<std::string> names;
    for (const SignAt& at : signs) {
      const bool here = std::binary_search(place.parts.begin(), place.parts.end(), at.part);
      if (here && !has(names, at.sign->name)) names.push_back(at.sign->name);
    }
    for (const std::string& name : names) {
      const std::vector<std::size_t> which = signs_at(place, name, signs);
      if (known.insert(which).second) add(place, name, which);
    }
  }
}

void SignSearch::add(const Place& place, const std::string& sign,
                     const std::vector<std::size_t>& which) {
  Entry entry;
  entry.told = {place.name, sign, which, ""};
  entry.kind = place.kind;
  entry.likely = signs_[which.front()].sign->likely;
  entry.named = words_of(place.name);
  std::set<const Sign*> all;
  for (const std::size_t k : which) {
    if (!all.insert(signs_[k].sign).second) continue;
    const Sign& one = *signs_[k].sign;
    append(entry.exact, words_of(one.name));
    entry.exact_texts.push_back(text(listed(one.words)));
    entry.about_texts.push_back(text(one.says));
    entry.exact_texts.push_back(text(words_of_key(one.kind->name)));
    entry.about_texts.push_back(text(one.kind->declaration.title));
  }
  add_words_of_place(place, entry);
  entries_.push_back(std::move(entry));
}

std::size_t SignSearch::text(const std::string& english, std::size_t which) {
  return texts_.try_emplace({english, which}, texts_.size()).first->second;
}

void SignSearch::add_words_of_place(const Place& place, Entry& entry) {
  if (place.kind == Place::Kind::kAll) return;  // its kind's words are there
  append(place.kind == Place::Kind::kPart ? entry.about : entry.exact, words_of(place.name));
  std::set<const Room*> rooms;
  std::set<int> floors;
  for (const PartId part : place.parts) {
    const Room* room = room_of(installation_, part);
    if (room == nullptr) return;
    rooms.insert(room);
    floors.insert(room->floor);
  }
  const int lowest = *floors.begin();
  const bool is_floor = place.kind == Place::Kind::kFloor;
  if (rooms.size() == 1) append(entry.about, words_of((*rooms.begin())->name));
  if (floors.size() == 1) {
    (is_floor ? entry.exact : entry.about).push_back(std::to_string(lowest));
    if (lowest >= 0)
      (is_floor ? entry.exact_texts : entry.about_texts)
          .push_back(text(kOrdinals, static_cast<std::size_t>(lowest)));
  }
  if (floors.size() > 1 && is_floor) entry.exact_texts.push_back(text(kUpper));
  if (is_floor) entry.about_texts.push_back(text(kFloors));
  if (lowest > 0 || *floors.rbegin() <= 0)
    entry.about_texts.push_back(text(height_of_floor(lowest)));
}

std::vector<std::vector<std::string>> SignSearch::spoken_texts() const {
  std::vector<Words> all(texts_.size());
  for (const auto& [text, number] : texts_) {
    Words words = words_of(tr(text.first));
    if (text.second == kWhole)
      all[number] = std::move(words);
    else if (text.second < words.size())
      all[number] = {words[text.second]};
  }
  return all;
}

double SignSearch::score(const Entry& entry, const std::vector<std::string>& asked,
                         const std::vector<std::vector<std::string>>& texts) const {
  const Words named =
      has_own_words(entry.kind) ? words_of(spoken_place(entry.told.place)) : entry.named;
  std::vector<const Words*> exact{&entry.exact}, about{&entry.about};
  if (has_own_words(entry.kind) && entry.kind != Place::Kind::kAll) exact.push_back(&named);
  for (const std::size_t text : entry.exact_texts) exact.push_back(&texts[text]);
  for (const std::size_t text : entry.about_texts) about.push_back(&texts[text]);
  double score = 0;
  for (const std::string& word : asked) {
    const double one = met(word, exact, about);
    if (one > 0) score += kPerWord + one;
  }
  const bool is_named = std::all_of(named.begin(), named.end(),
                                    [&](const std::string& word) { return has(asked, word); });
  return is_named ? score + kNamed : score;
}

Tellable SignSearch::told_of(const Entry& entry) const {
  Tellable told = entry.told;
  told.words =
      words_of_key(spoken_place(told.place)) + ": " + tr(signs_[told.which.front()].sign->says);
  return told;
}

std::vector<Tellable> SignSearch::find(const std::string& words, std::size_t most) const {
  Words asked;
  const Words empty = empty_words();
  for (std::string& word : words_of(words)) {
    if (kEmptyWords.count(word) == 0 && !has(empty, word) && !has(asked, word))
      asked.push_back(std::move(word));
  }
  struct Scored {
    double score = 0;
    const Entry* entry = nullptr;
  };
  const std::vector<Words> texts = spoken_texts();
  std::vector<Scored> found;
  for (const Entry& entry : entries_) {
    const double score = this->score(entry, asked, texts);
    if (score > kPerWord) found.push_back({score + entry.likely, &entry});
  }
  std::stable_sort(found.begin(), found.end(), [](const Scored& a, const Scored& b) {
    if (a.score != b.score) return a.score > b.score;
    return breadth(a.entry->kind) < breadth(b.entry->kind);
  });
  std::vector<Tellable> best;
  for (std::size_t k = 0; k < found.size() && k < most; ++k)
    best.push_back(told_of(*found[k].entry));
  return best;
}

std::vector<Tellable> SignSearch::of_part(PartId part) const {
  std::vector<const Entry*> own;
  for (const Entry& entry : entries_) {
    if (entry.told.which.size() == 1 && signs_[entry.told.which.front()].part == part)
      own.push_back(&entry);
  }
  std::stable_sort(own.begin(), own.end(), [&](const Entry* a, const Entry* b) {
    return signs_[a->told.which.front()].sign->sense < signs_[b->told.which.front()].sign->sense;
  });
  std::vector<Tellable> all;
  for (const Entry* entry : own) all.push_back(told_of(*entry));
  return all;
}

std::optional<Tellable> SignSearch::of_signs(const std::vector<std::size_t>& which) const {
  for (const Entry& entry : entries_) {
    if (entry.told.which == which) return told_of(entry);
  }
  return std::nullopt;
}

std::vector<Tellable> SignSearch::elsewhere(const Tellable& one) const {
  std::vector<const Entry*> others;
  for (const Entry& entry : entries_) {
    const auto& which = entry.told.which;
    const bool meets = std::any_of(one.which.begin(), one.which.end(), [&](std::size_t k) {
      return std::binary_search(which.begin(), which.end(), k);
    });
    if (entry.told.sign == one.sign && meets && which != one.which) others.push_back(&entry);
  }
  std::stable_sort(others.begin(), others.end(), [](const Entry* a, const Entry* b) {
    return breadth(a->kind) < breadth(b->kind);
  });
  std::vector<Tellable> all{one};
  for (const Entry* entry : others) all.push_back(told_of(*entry));
  return all;
}

}  // namespace sixty::diagnose
