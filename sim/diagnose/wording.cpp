#include "sim/diagnose/wording.hpp"

#include "sim/base/text.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::diagnose {

std::vector<const Ranked*> worth_telling(const Ranking& ranking, std::size_t most) {
  constexpr double kLeast = 0.015;
  std::vector<const Ranked*> all;
  for (const Ranked& one : ranking.ranked) {
    if (all.size() == most || (!all.empty() && one.probability < kLeast)) break;
    all.push_back(&one);
  }
  return all;
}

std::string title_of(const Ranked& one, const Library& library) {
  std::string text;
  for (const std::size_t number : one.suspects()) {
    const Suspect& suspect = library.suspects[number];
    const std::string title =
        library.installation->parts[suspect.part].name + ": " + tr(suspect.fault->title);
    text = text.empty() ? title : say("{}; and at the same time {}", text, title);
  }
  return text;
}

std::string care_of(const Ranked& one, const Library& library) {
  std::string text;
  for (const std::size_t number : one.suspects()) {
    const std::string caution = tr(library.suspects[number].fault->caution);
    if (caution.empty() || text.find(caution) != std::string::npos) continue;
    text += (text.empty() ? "" : "; ") + caution;
  }
  return text;
}

std::string fault_words(const Ranked& one, const Library& library) {
  std::string text;
  for (const std::size_t number : one.suspects()) {
    const Suspect& suspect = library.suspects[number];
    const auto [least, most] = severities_of(one, number, library);
    std::string fault =
        full_name(*suspect.fault) + " @ " + library.installation->parts[suspect.part].name;
    if (has_degrees(*suspect.fault))
      fault = say("{}, severity {:.1f} to {:.1f}", fault, least, most);
    text = text.empty() ? fault : say("{} and {}", text, fault);
  }
  return text;
}

std::string reason_words(const Speaks& reason, const Ranked& one, const Ranking& ranking,
                         const std::vector<Observation>& observations, const Library& library) {
  const std::size_t o = reason.observation;
  return say("{} ({} with it, {} otherwise)", sentence(observations[o], library.signs),
             percent(one.chances[o]), percent(ranking.expected[o]));
}

std::string title_of(const Proposal& proposal) {
  return proposal.check->id + (proposal.place.empty() ? "" : " " + spoken_place(proposal.place));
}

std::string question_words(const Proposal& proposal, const Library& library) {
  const SignAt& at = library.signs[proposal.sign];
  const bool any = proposal.check->asks && proposal.signs.size() > 1;
  const std::string says = tr(at.sign->says);
  return any ? say("Is it so that any {} {}?", spoken_kind(at.sign->kind->name), says)
             : say("Is it so that {} {}?", library.installation->parts[at.part].name, says);
}

std::string effort_words(const Proposal& proposal) {
  const Check& check = *proposal.check;
  return check.needs.empty() ? say("{:.2f} bit, {:.0f} min", proposal.gain_bits, check.minutes)
                             : say("{:.2f} bit, {:.0f} min; {}", proposal.gain_bits, check.minutes,
                                   tr(check.needs));
}

}  // namespace sixty::diagnose
