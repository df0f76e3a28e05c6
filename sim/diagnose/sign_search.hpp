#pragma once

#include <map>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "sim/diagnose/observation.hpp"
#include "sim/diagnose/place.hpp"

namespace sixty::diagnose {

/// A sign at a place, as it can be told.
struct Tellable {
  std::string place, sign;         ///< names, as in an observation
  std::vector<std::size_t> which;  ///< of the installation's signs
  std::string words;               ///< "upstairs: is slow", in the spoken language
};

/// Finds what can be told of an installation by everyday words of the spoken language, and by names
/// as files have them.
class SignSearch {
 public:
  SignSearch(const Installation& installation, const std::vector<SignAt>& signs);

  /// The entries that the words speak of, the nearest first. Words that are in no entry are passed
  /// over, unless all are; where no place is named, whole kinds come before single parts. Nothing
  /// for an empty text. Range: most > 0.
  std::vector<Tellable> find(const std::string& words, std::size_t most) const;
  /// All signs of one part, in the order of its kind's: first what anybody notices.
  std::vector<Tellable> of_part(PartId part) const;
  /// The same sign at other places that take it, the present one first: it, what it belongs to, its
  /// room, its floor, all of its kind. Range: `which` is not empty.
  std::vector<Tellable> elsewhere(const Tellable& one) const;

  /// The one that speaks of exactly these signs; nothing if no name stands for them.
  std::optional<Tellable> of_signs(const std::vector<std::size_t>& which) const;

 private:
  struct Entry {
    Tellable told;
    Place::Kind kind = Place::Kind::kPart;
    std::vector<std::string> exact;                     ///< words that mean the sign, or the place
    std::vector<std::string> named;                     ///< words of the place's name
    std::vector<std::string> about;                     ///< words that go with either
    std::vector<std::size_t> exact_texts, about_texts;  ///< whose words do so, by their numbers
    double likely = 0;                                  ///< of the sign, to be told unasked
  };
  void add(const Place& place, const std::string& sign, const std::vector<std::size_t>& which);
  void add_words_of_place(const Place& place, Entry& entry);
  /// The number of a text, or of one of its words.
  std::size_t text(const std::string& english, std::size_t which = kWhole);
  /// Words of all texts, by their numbers, as the spoken language has them.
  std::vector<std::vector<std::string>> spoken_texts() const;
  double score(const Entry& entry, const std::vector<std::string>& asked,
               const std::vector<std::vector<std::string>>& texts) const;
  Tellable told_of(const Entry& entry) const;

  static constexpr std::size_t kWhole = static_cast<std::size_t>(-1);

  const Installation& installation_;
  std::vector<SignAt> signs_;
  std::vector<Entry> entries_;
  std::map<std::pair<std::string, std::size_t>, std::size_t> texts_;
};

}  // namespace sixty::diagnose
