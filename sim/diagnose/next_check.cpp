#include "sim/diagnose/next_check.hpp"

#include <algorithm>
#include <map>
#include <set>

#include "sim/diagnose/outlook.hpp"
#include "sim/diagnose/place.hpp"

namespace sixty::diagnose {
namespace {

constexpr double kSure = 0.9;
constexpr double kAnybodyKnows = 0.5;    // likelier told than that
constexpr double kLeastGainBits = 0.02;  // less tells nothing
constexpr std::size_t kLookedAhead = 5, kFurther = 12;

std::vector<bool> observed(const Library& library, const std::vector<Observation>& observations) {
  std::vector<bool> known(library.signs.size());
  for (const Observation& o : observations) {
    if (o.which.size() == 1 && o.is_looked_at()) known[o.which.front()] = true;
  }
  return known;
}

/// Of a part: the line or zone that it belongs to, or else its own name.
std::vector<std::string> groups_by_part(const Installation& installation) {
  std::vector<std::string> names;
  for (const PartInstance& part : installation.parts) names.push_back(part.name);
  for (const Place& place : places_of(installation)) {
    if (place.kind != Place::Kind::kGroup) continue;
    for (const PartId part : place.parts) names[part] = place.name;
  }
  return names;
}

bool is_shown_by(const Check& check, const Sign& sign) {
  return sign.check == check.id ||
         std::find(check.shows.begin(), check.shows.end(), sign.check) != check.shows.end();
}

/// Where a check has to be made to show something of a part: any of these.
std::vector<std::string> places_for(const Check& check, PartId part, const Library& library,
                                    const std::vector<std::string>& groups) {
  const std::vector<PartInstance>& parts = library.installation->parts;
  switch (check.covers) {
    case Check::Covers::kOne:
      return {parts[part].name};
    case Check::Covers::kGroup:
      return {groups[part]};
    case Check::Covers::kAll:
      return {""};
    case Check::Covers::kCircuit:
      break;
  }
  std::vector<std::string> places;
  for (PartId whose = 0; whose < parts.size(); ++whose) {
    const std::vector<PartId>& circuit = library.circuits[whose];
    if (std::binary_search(circuit.begin(), circuit.end(), part))
      places.push_back(parts[whose].name);
  }
  return places;
}

/// Every question that could be put: one sign, wherever it may be.
std::vector<Proposal> questions(const Library& library, const CheckBook& checks,
                                const std::vector<Observation>& observations) {
  const auto asking = std::find_if(checks.all().begin(), checks.all().end(),
                                   [](const Check& check) { return check.asks; });
  if (asking == checks.all().end()) return {};
  std::set<const Sign*> told;
  for (const Observation& o : observations) told.insert(library.signs[o.which.front()].sign);
  std::map<std::pair<std::string, std::string>, std::vector<std::size_t>> signs;
  for (std::size_t k = 0; k < library.signs.size(); ++k) {
    const Sign& sign = *library.signs[k].sign;
    const bool anybody = sign.sense == Sense::kSeen || sign.sense == Sense::kHeard;
    if (anybody && sign.likely >= kAnybodyKnows && told.count(&sign) == 0)
      signs[{sign.kind->name, sign.name}].push_back(k);
  }
  std::vector<Proposal> all;
  for (auto& [name, members] : signs) {
    Proposal one;
    one.check = &*asking;
    one.place = "all " + name.first;
    one.sign = members.front();
    one.signs = std::move(members);
    one.cost = cost_min(*asking);
    all.push_back(std::move(one));
  }
  return all;
}

bool is_sure(const Ranking& ranking) {
  return !ranking.ranked.empty() && ranking.ranked.front().probability >= kSure;
}

bool share_a_sign(const Proposal& a, const Proposal& b) {
  return std::any_of(a.signs.begin(), a.signs.end(), [&](std::size_t sign) {
    return std::binary_search(b.signs.begin(), b.signs.end(), sign);
  });
}

void sort_by_worth(std::vector<Proposal>& all) {
  std::stable_sort(all.begin(), all.end(), [](const Proposal& a, const Proposal& b) {
    return worth_min(a) > worth_min(b);
  });
}

/// The leaders among proposals are weighed anew with what may be done after each outcome.
void look_ahead(const Outlook& outlook, std::vector<Proposal>& best) {
  std::vector<Outlook::Answers> answers;
  for (std::size_t k = 0; k < std::min(best.size(), kFurther); ++k)
    answers.push_back(outlook.answers(best[k].signs));
  for (std::size_t k = 0; k < std::min(best.size(), kLookedAhead); ++k) {
    std::vector<Outlook::Further> further;
    for (std::size_t other = 0; other < answers.size(); ++other) {
      if (!share_a_sign(best[k], best[other]))
        further.push_back({&answers[other], best[other].cost});
    }
    best[k].saved_min = outlook.saved_min(answers[k], further);
  }
}

/// `sure`: one suspect is all but certain, and what costs more than it brings is left.
std::vector<Proposal> best_of(std::vector<Proposal> possible, const Outlook& outlook, bool sure,
                              std::size_t most) {
  std::vector<Proposal> best;
  for (Proposal& one : possible) {
    const Outlook::Answers answers = outlook.answers(one.signs);
    one.gain_bits = outlook.gain_bits(answers);
    if (one.gain_bits < kLeastGainBits) continue;
    one.saved_min = outlook.saved_min(answers);
    best.push_back(std::move(one));
  }
  sort_by_worth(best);
  look_ahead(outlook, best);
  sort_by_worth(best);
  if (sure) {
    std::erase_if(best, [](const Proposal& one) { return worth_min(one) <= 0; });
  }
  if (best.size() > most) best.resize(most);
  for (Proposal& one : best) {
    double gain = -1;
    for (const std::size_t sign : one.signs) {
      const double alone = outlook.gain_bits(outlook.answers({sign}));
      if (alone <= gain) continue;
      gain = alone;
      one.sign = sign;
    }
    one.likely = outlook.likely(one.sign);
  }
  return best;
}

}  // namespace

std::vector<Proposal> possible_checks(const Library& library,
                                      const std::vector<Observation>& observations,
                                      const CheckBook& checks) {
  const std::vector<bool> known = observed(library, observations);
  const std::vector<std::string> groups = groups_by_part(*library.installation);
  std::vector<Proposal> all;
  for (const Check& check : checks.all()) {
    if (check.asks) continue;
    std::map<std::string, std::vector<std::size_t>> by_place;
    for (std::size_t k = 0; k < library.signs.size(); ++k) {
      const SignAt& at = library.signs[k];
      if (known[k] || !is_shown_by(check, *at.sign)) continue;
      for (const std::string& place : places_for(check, at.part, library, groups))
        by_place[place].push_back(k);
    }
    for (auto& [place, signs] : by_place) {
      Proposal one;
      one.check = &check;
      one.place = place;
      one.sign = signs.front();
      one.signs = std::move(signs);
      one.cost = cost_min(check);
      all.push_back(std::move(one));
    }
  }
  return all;
}

double worth_min(const Proposal& one) { return one.saved_min - one.cost; }

std::vector<Proposal> next_checks(const Library& library, const Ranking& ranking,
                                  const std::vector<Observation>& observations,
                                  const CheckBook& checks, std::size_t most) {
  return best_of(possible_checks(library, observations, checks), Outlook(library, ranking),
                 is_sure(ranking), most);
}

std::vector<Proposal> next_questions(const Library& library, const Ranking& ranking,
                                     const std::vector<Observation>& observations,
                                     const CheckBook& checks, std::size_t most) {
  return best_of(questions(library, checks, observations), Outlook(library, ranking),
                 is_sure(ranking), most);
}

}  // namespace sixty::diagnose
