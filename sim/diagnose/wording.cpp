#include "sim/diagnose/wording.hpp"

#include <fmt/format.h>

#include "sim/base/text.hpp"

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
    text += (text.empty() ? "" : "; and at the same time ") +
            library.installation->parts[suspect.part].name + ": " + suspect.fault->title;
  }
  return text;
}

std::string care_of(const Ranked& one, const Library& library) {
  std::string text;
  for (const std::size_t number : one.suspects()) {
    const std::string& caution = library.suspects[number].fault->caution;
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
    text += (text.empty() ? "" : " and ") + full_name(*suspect.fault) + " @ " +
            library.installation->parts[suspect.part].name;
    if (has_degrees(*suspect.fault))
      text += fmt::format(", severity {:.1f} to {:.1f}", least, most);
  }
  return text;
}

std::string reason_words(const Speaks& reason, const Ranked& one, const Ranking& ranking,
                         const std::vector<Observation>& observations, const Library& library) {
  const std::size_t o = reason.observation;
  return fmt::format("{} ({} with it, {} otherwise)", sentence(observations[o], library.signs),
                     percent(one.chances[o]), percent(ranking.expected[o]));
}

std::string title_of(const Proposal& proposal) {
  return proposal.check->id + (proposal.place.empty() ? "" : " " + proposal.place);
}

std::string question_words(const Proposal& proposal, const Library& library) {
  const SignAt& at = library.signs[proposal.sign];
  const bool any = proposal.check->asks && proposal.signs.size() > 1;
  const std::string who =
      any ? "any " + at.sign->kind->name : library.installation->parts[at.part].name;
  return "Is it so that " + who + " " + at.sign->says + "?";
}

std::string effort_words(const Proposal& proposal) {
  return fmt::format("{:.2f} bit, {:.0f} min{}", proposal.gain_bits, proposal.check->minutes,
                     proposal.check->needs.empty() ? "" : "; " + proposal.check->needs);
}

}  // namespace sixty::diagnose
