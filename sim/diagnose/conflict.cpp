#include "sim/diagnose/conflict.hpp"

#include <algorithm>

#include "sim/words/words.hpp"

namespace sixty::diagnose {
namespace {

using How = Observation::How;

/// That it is so at each of these parts. A meter's reading says neither that it is nor that it is
/// not.
bool says_there(const Observation& one) {
  return one.is_there() && one.how != How::kReads && (one.all || one.which.size() == 1);
}

bool is_one_of(std::size_t sign, const Observation& of) {
  return std::find(of.which.begin(), of.which.end(), sign) != of.which.end();
}

bool is_yes_and_no(const Observation& yes, const Observation& no) {
  return says_there(yes) && no.how == How::kNot && yes.span == no.span &&
         std::any_of(yes.which.begin(), yes.which.end(),
                     [&](std::size_t sign) { return is_one_of(sign, no); });
}

/// Whether the first means nothing where the second is so.
bool means_nothing_with(const Observation& one, const Observation& other,
                        const std::vector<SignAt>& signs) {
  return says_there(one) && says_there(other) && other.span == 0 &&
         std::any_of(one.which.begin(), one.which.end(), [&](std::size_t sign) {
           return signs[sign].unless != kNoSign && is_one_of(signs[sign].unless, other);
         });
}

}  // namespace

std::vector<Conflict> conflicts_among(const std::vector<Observation>& observations,
                                      const std::vector<SignAt>& signs) {
  std::vector<Conflict> all;
  for (std::size_t b = 0; b < observations.size(); ++b) {
    for (std::size_t a = 0; a < b; ++a) {
      const Observation &first = observations[a], &second = observations[b];
      if (is_yes_and_no(first, second) || is_yes_and_no(second, first) ||
          means_nothing_with(first, second, signs) || means_nothing_with(second, first, signs))
        all.emplace_back(a, b);
    }
  }
  return all;
}

std::string conflict_words(const Conflict& conflict, const std::vector<Observation>& observations,
                           const std::vector<SignAt>& signs) {
  return say("these do not go together: {}; and {}", sentence(observations[conflict.first], signs),
             sentence(observations[conflict.second], signs));
}

}  // namespace sixty::diagnose
