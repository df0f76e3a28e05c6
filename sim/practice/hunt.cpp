#include "sim/practice/hunt.hpp"

#include <algorithm>
#include <map>
#include <utility>

#include "sim/diagnose/ambiguity.hpp"
#include "sim/diagnose/belief.hpp"
#include "sim/diagnose/outlook.hpp"
#include "sim/diagnose/report.hpp"
#include "sim/words/words.hpp"

namespace sixty::practice {
namespace {

using diagnose::Observation;
using diagnose::Proposal;

constexpr double kNothing_bits = 0.02, kMost = 0.6, kHalf = 0.5, kAsMuch = 0.9;
constexpr double kDangerous = 0.1;  // risk from which on a safe check is to be preferred
constexpr double kRisk_min = 60;    // of work, as much as a risk of 1
constexpr double kEven = 0.5, kSure = 0.9;
constexpr double kProof_min = 4;  // two whole minutes and a ring
constexpr std::size_t kCompared = 6;
constexpr std::size_t kMostDeeds = 40;

double entropy_bit(const diagnose::Ranking& ranking) {
  std::vector<double> beliefs{ranking.sound, ranking.none_of_these};
  for (const diagnose::Ranked& one : ranking.ranked) beliefs.push_back(one.probability);
  return diagnose::entropy_bit(diagnose::normalised(beliefs));
}

}  // namespace

const char* sentence_of(Worth worth) {
  switch (worth) {
    case Worth::kSplits:
      return tr("It split the field.");
    case Worth::kHelps:
      return tr("It helped; another check would have told more.");
    case Worth::kOneByOne:
      return tr("One part after the other: halve the field first.");
    case Worth::kNothing:
      return tr("It could change nothing.");
    case Worth::kHarmful:
      return tr("Dangerous, and a safe check tells as much.");
    case Worth::kPremature:
      return tr("Worked at without evidence: it was sound.");
    case Worth::kNotIt:
      return tr("There was reason to, and yet it was sound.");
    case Worth::kMended:
      return tr("That was the matter.");
    case Worth::kHolds:
      return tr("The cure holds.");
    case Worth::kStillWrong:
      break;
  }
  return tr("Something is still wrong.");
}

Hunt::Hunt(const diagnose::Library& library, const diagnose::CheckBook& checks, Case hidden)
    : library_(library),
      checks_(checks),
      hidden_(std::move(hidden)),
      left_(hidden_),
      groups_(diagnose::groups_of(library)),
      known_(hidden_.reports) {
  weigh();
  p_true_at_first_ = p_true();
}

void Hunt::weigh() {
  diagnose::RankingOptions options;
  options.excluded = sound_;
  ranking_ = diagnose::rank(library_, known_, options);
}

bool Hunt::is_same(std::size_t suspect, std::size_t truth) const {
  return suspect == truth || groups_[suspect] == groups_[truth];
}

double Hunt::p_true() const {
  double sum = 0;
  for (const diagnose::Ranked& one : ranking_.ranked) {
    const std::vector<std::size_t> suspects = one.suspects();
    if (std::any_of(suspects.begin(), suspects.end(), [&](std::size_t suspect) {
          return std::any_of(left_.hidden.begin(), left_.hidden.end(),
                             [&](const Hidden& truth) { return is_same(suspect, truth.suspect); });
        }))
      sum += one.probability;
  }
  return sum;
}

std::vector<Proposal> Hunt::checks() const {
  return diagnose::possible_checks(library_, known_, checks_);
}

std::vector<Proposal> Hunt::best_checks(std::size_t most) const {
  std::vector<Proposal> all = diagnose::next_checks(library_, ranking_, known_, checks_, most);
  for (Proposal& question : diagnose::next_questions(library_, ranking_, known_, checks_, most))
    all.push_back(std::move(question));
  std::stable_sort(all.begin(), all.end(), [](const Proposal& a, const Proposal& b) {
    return diagnose::worth_min(a) > diagnose::worth_min(b);
  });
  if (all.size() > most) all.resize(most);
  return all;
}

Worth Hunt::worth_of(const Proposal& made, double best_bits) const {
  if (made.gain_bits < kNothing_bits) return Worth::kNothing;
  if (made.check->risk >= kDangerous) {
    for (const Proposal& other : best_checks(kCompared)) {
      if (other.check->risk < made.check->risk && other.gain_bits >= kAsMuch * made.gain_bits)
        return Worth::kHarmful;
    }
  }
  if (made.gain_bits >= kMost * best_bits) return Worth::kSplits;
  const bool one_part = made.check->covers == diagnose::Check::Covers::kOne;
  return one_part && made.gain_bits < kHalf * best_bits ? Worth::kOneByOne : Worth::kHelps;
}

void Hunt::take_found(Deed& deed, std::vector<Observation> found) {
  const double before = entropy_bit(ranking_);
  std::size_t not_so = 0;
  for (Observation& one : found) {
    const bool tells = found.size() == 1 || one.how != Observation::How::kNot;
    if (tells) deed.found.push_back(diagnose::sentence(one, library_.signs));
    not_so += tells ? 0 : 1;
    known_.push_back(std::move(one));
  }
  if (not_so > 0)
    deed.found.push_back(say_counted("nothing else of {} things that it would show",
                                     "nothing else of {} things that it would show",
                                     static_cast<std::int64_t>(not_so)));
  weigh();
  deed.found_bits = before - entropy_bit(ranking_);
  deed.p_true = p_true();
}

/// What was looked at already tells nothing more.
double Hunt::expected_bits(const Proposal& proposal) const {
  const std::vector<Proposal> open = checks();
  const bool is_open =
      proposal.check->asks || std::any_of(open.begin(), open.end(), [&](const Proposal& one) {
        return one.check == proposal.check && one.place == proposal.place;
      });
  if (!is_open) return 0;
  const diagnose::Outlook outlook(library_, ranking_);
  return outlook.gain_bits(outlook.answers(proposal.signs));
}

const Deed& Hunt::check(const Proposal& proposal) {
  const diagnose::Check& check = *proposal.check;
  Deed deed;
  deed.kind = check.asks ? Deed::Kind::kQuestion : Deed::Kind::kCheck;
  deed.what = check.id + ": " + tr(check.what);
  deed.part = proposal.place;
  deed.minutes = check.minutes;
  deed.harm = check.risk * kRisk_min;
  Proposal made = proposal;
  made.gain_bits = expected_bits(proposal);
  deed.expected_bits = made.gain_bits;
  deed.best_bits = made.gain_bits;
  for (const Proposal& other : best_checks(kCompared))
    deed.best_bits = std::max(deed.best_bits, other.gain_bits);
  deed.worth = worth_of(made, deed.best_bits);
  const auto who = static_cast<std::uint64_t>(hidden_.level);
  if (check.asks) {
    deed.what += ": " + tr(library_.signs[made.sign].sign->says);
    std::vector<Observation> said = diagnose::answers_of(
        library_, left_.departures, *library_.signs[made.sign].sign, {}, hidden_.seed, who);
    if (said.empty()) {
      // Nobody knows: it is not asked again.
      said.push_back(diagnose::observation_at(made.place, made.signs, library_.signs));
      said.back().how = Observation::How::kUnseen;
    }
    take_found(deed, std::move(said));
  } else {
    take_found(deed, diagnose::found_by_check(library_, left_.departures, made.signs,
                                              hidden_.seed + deeds_.size(), who));
  }
  deeds_.push_back(std::move(deed));
  return deeds_.back();
}

const Deed& Hunt::mend(std::size_t suspect) {
  const diagnose::Suspect& at = library_.suspects[suspect];
  double belief = 0;
  for (const diagnose::Ranked& one : ranking_.ranked) {
    const std::vector<std::size_t> suspects = one.suspects();
    if (std::any_of(suspects.begin(), suspects.end(),
                    [&](std::size_t other) { return is_same(other, suspect); }))
      belief += one.probability;
  }
  Deed deed;
  deed.kind = Deed::Kind::kMend;
  deed.what = tr(at.fault->title) + ": " + tr(at.fault->remedy);
  deed.part = library_.installation->parts[at.part].name;
  deed.minutes = diagnose::kWrongPlace_min;
  const auto hit = std::find_if(left_.hidden.begin(), left_.hidden.end(), [&](const Hidden& truth) {
    return library_.suspects[truth.suspect].part == at.part && is_same(suspect, truth.suspect);
  });
  if (hit != left_.hidden.end()) {
    deed.worth = Worth::kMended;
    left_.hidden.erase(hit);
    // From now on a check shows what is left.
    left_.departures = is_mended() ? std::vector<float>(hidden_.departures.size(), 0)
                                   : noticed_of(library_, left_.hidden);
    is_other_ = true;
  } else {
    deed.worth = belief < kEven ? Worth::kPremature : Worth::kNotIt;
    sound_.push_back(suspect);
  }
  proved_ = false;
  weigh();
  deed.p_true = p_true();
  deeds_.push_back(std::move(deed));
  return deeds_.back();
}

const Deed& Hunt::prove() {
  Deed deed;
  deed.kind = Deed::Kind::kProve;
  deed.what = tr("watch two whole minutes and a ring");
  deed.minutes = kProof_min;
  deed.worth = is_mended() ? Worth::kHolds : Worth::kStillWrong;
  proved_ = is_mended();
  if (!is_mended() && is_other_) {
    // One of two is mended: what is still wrong is another picture.
    is_other_ = false;
    left_.reports = told_of(library_, left_);
    known_ = left_.reports;
    for (const Observation& one : known_)
      deed.found.push_back(diagnose::sentence(one, library_.signs));
    weigh();
  }
  deed.p_true = p_true();
  deeds_.push_back(std::move(deed));
  return deeds_.back();
}

Score Hunt::score() const {
  Score score;
  score.mended = is_mended();
  score.proved = is_over();
  if (p_true_at_first_ >= kSure) score.sufficed_after = 0;
  for (std::size_t k = 0; k < deeds_.size(); ++k) {
    const Deed& deed = deeds_[k];
    score.minutes += deed.minutes;
    score.harm += deed.harm;
    score.needless += deed.worth == Worth::kNothing;
    score.harmful += deed.worth == Worth::kHarmful;
    score.premature += deed.worth == Worth::kPremature;
    score.good_parts += deed.worth == Worth::kPremature || deed.worth == Worth::kNotIt;
    const bool looks = deed.kind == Deed::Kind::kCheck || deed.kind == Deed::Kind::kQuestion;
    if (looks && !score.sufficed_after && deed.p_true >= kSure) score.sufficed_after = k + 1;
  }
  return score;
}

std::optional<std::pair<std::size_t, double>> likeliest(const diagnose::Ranking& ranking) {
  std::map<std::size_t, double> beliefs;
  for (const diagnose::Ranked& one : ranking.ranked) {
    for (const std::size_t suspect : one.suspects()) beliefs[suspect] += one.probability;
  }
  const auto most =
      std::max_element(beliefs.begin(), beliefs.end(),
                       [](const auto& a, const auto& b) { return a.second < b.second; });
  if (most == beliefs.end()) return std::nullopt;
  return *most;
}

void play_best(Hunt& hunt) {
  while (!hunt.is_over() && hunt.deeds().size() < kMostDeeds) {
    const auto first = likeliest(hunt.ranking());
    if (!first) return;
    const auto best = hunt.best_checks(1);
    if (first->second < kSure && !best.empty() && diagnose::worth_min(best.front()) > 0) {
      hunt.check(best.front());
      continue;
    }
    hunt.mend(first->first);
    hunt.prove();
  }
}

}  // namespace sixty::practice
