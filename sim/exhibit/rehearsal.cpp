#include "sim/exhibit/rehearsal.hpp"

#include <cmath>

namespace sixty::exhibit {

Rehearsed rehearse(const Take& take, Session& session) {
  Rehearsed rehearsed;
  for (const lesson::NamedFact& fact : take.facts)
    rehearsed.numbers.emplace_back(lesson::kNone, fact.fact.unit);
  if (take.live) return rehearsed;
  try {
    session.replace_log(take.log);
    std::vector<lesson::Fact> facts;
    for (const lesson::NamedFact& fact : take.facts) facts.push_back(fact.fact);
    const lesson::Span span{take.at, take.to};
    const std::vector<double> values = lesson::values_of(facts, session, span);
    for (std::size_t k = 0; k < values.size(); ++k) {
      rehearsed.numbers[k].first = values[k];
      if (std::isnan(values[k]) && rehearsed.flaw.empty())
        rehearsed.flaw = "there is no number for \"" + take.facts[k].name + "\"";
    }
    if (rehearsed.flaw.empty()) rehearsed.flaw = lesson::unmet(take.proves, session, span);
  } catch (const RunFailure& failure) {
    rehearsed.flaw = failure.what();
  }
  return rehearsed;
}

std::vector<Flaw> flaws_of(const Opened& opened) {
  std::vector<Flaw> flaws;
  Session session(opened.installation);
  for (const Take* take : takes_of(*opened.exhibit)) {
    const Rehearsed rehearsed = rehearse(*take, session);
    if (!rehearsed.flaw.empty()) flaws.push_back({take, rehearsed.flaw});
  }
  return flaws;
}

}  // namespace sixty::exhibit
