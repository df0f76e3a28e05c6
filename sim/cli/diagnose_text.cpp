#include <fmt/format.h>

#include "sim/base/text.hpp"
#include "sim/cli/diagnose_view.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/record_text.hpp"
#include "sim/diagnose/conflict.hpp"
#include "sim/diagnose/wording.hpp"

namespace sixty::cli {
namespace {

using diagnose::Observation;
using diagnose::Ranked;
using diagnose::Suspect;

constexpr std::size_t kMostShown = 8;
constexpr std::size_t kMostReasons = 3;
constexpr std::size_t kMostMisses = 20;

std::string named(const Suspect& suspect, const Installation& scene) {
  return full_name(*suspect.fault) + " @ " + part_name(scene, suspect.part);
}

/// The observations that speak most for (or against) one, with how much.
std::string reasons(const Ranked& one, const Diagnosis& d, bool in_favour) {
  std::vector<diagnose::Speaks> most = speaking(one, d.ranking, in_favour);
  if (most.size() > kMostReasons) most.resize(kMostReasons);
  std::string text;
  for (const diagnose::Speaks& reason : most) {
    text += wrapped((in_favour ? "for: " : "against: ") +
                        reason_words(reason, one, d.ranking, d.observations, d.library),
                    6, 8);
  }
  return text;
}

std::string with_share(const Ranked& one, const std::string& words) {
  constexpr std::size_t kIndent = 9;
  return fmt::format("  {:>5}  ", percent(one.probability)) +
         wrapped(words, kIndent, kIndent).substr(kIndent);
}

std::string ranked_text(const Ranked& one, const Diagnosis& d) {
  std::string text = with_share(one, fault_words(one, d.library));
  for (const std::size_t number : one.suspects())
    text += wrapped(d.library.suspects[number].fault->title, 9, 9);
  if (one.beforehand < 0.8 || one.beforehand > 1.25)
    text += wrapped(
        fmt::format("beforehand: {:.1f} times as likely as without what was known", one.beforehand),
        6, 8);
  text += reasons(one, d, true) + reasons(one, d, false);
  for (const std::size_t number : one.suspects())
    text += wrapped("to make sure: " + d.library.suspects[number].fault->check, 6, 8);
  const std::string care = care_of(one, d.library);
  return care.empty() ? text : text + wrapped("care: " + care, 6, 8);
}

/// What to do about the leader, and how to see that it was that.
std::string cure_text(const Diagnosis& d) {
  const Ranked& leader = d.ranking.ranked.front();
  std::string text = "\nIf it is the first\n";
  for (const std::size_t number : leader.suspects())
    text += wrapped("remedy: " + d.library.suspects[number].fault->remedy, 2, 4);
  const std::string care = care_of(leader, d.library);
  if (!care.empty()) text += wrapped("care: " + care, 2, 4);
  std::string gone;
  for (const std::size_t o : complaints(d.observations))
    gone += (gone.empty() ? "" : "; ") + sentence(d.observations[o], d.library.signs);
  if (!gone.empty()) text += wrapped("it is cured when this is so no longer: " + gone, 2, 4);
  return text;
}

std::string questions_text(const Diagnosis& d) {
  std::string text = d.questions.empty() ? "" : "\nWhat to ask people\n";
  for (const diagnose::Proposal& one : d.questions) {
    text += wrapped(fmt::format("{} ({:.2f} bit)", question_words(one, d.library), one.gain_bits),
                    2, 4);
  }
  return text;
}

std::string next_text(const Diagnosis& d) {
  if (d.next.empty()) return "\nNo check at hand would tell more than it costs.\n";
  std::string text = "\nWhat to check next\n";
  for (const diagnose::Proposal& one : d.next) {
    text += wrapped(title_of(one) + ": " + one.check->what + ". " + question_words(one, d.library) +
                        " (" + effort_words(one) + ")",
                    2, 4);
    if (!one.check->care.empty())
      text += wrapped("care: " + one.check->hazard + "; " + one.check->care, 6, 8);
  }
  return text;
}

}  // namespace

std::string provisional_text(const diagnose::Library& so_far,
                             const std::vector<Observation>& observations) {
  constexpr std::size_t kMost = 5;
  const diagnose::Ranking ranking = diagnose::rank(so_far, observations, {});
  std::string text = fmt::format("Provisional, by the first {} runs\n", so_far.simulations);
  for (const Ranked* one : worth_telling(ranking, kMost))
    text += with_share(*one, title_of(*one, so_far));
  return text + "\n";
}

std::string diagnosis_text(const Diagnosis& d) {
  std::string text;
  const std::string known = beforehand_sentence(known_with(d.observations));
  if (!known.empty()) text += wrapped(known, 0, 2) + "\n";
  text += "What explains it\n";
  for (const Ranked* one : worth_telling(d.ranking, kMostShown)) text += ranked_text(*one, d);
  text += fmt::format("  {:>5}  none of these\n", percent(d.ranking.none_of_these));
  text += fmt::format("  {:>5}  nothing is the matter\n", percent(d.ranking.sound));
  for (const std::size_t o : d.ranking.unexplained) {
    text += wrapped("The first does not explain: " + sentence(d.observations[o], d.library.signs),
                    2, 4);
  }
  for (const auto& conflict : conflicts_among(d.observations, d.library.signs)) {
    text += wrapped(
        "The evidence conflicts; " + conflict_words(conflict, d.observations, d.library.signs), 2,
        4);
  }
  return text + cure_text(d) + questions_text(d) + next_text(d) +
         fmt::format("\nBy {} runs of the installation.\n", d.facts.simulations);
}

namespace {

std::string costs_text(const diagnose::CureCosts& costs) {
  if (costs.cases == 0) return "";
  const auto cases = static_cast<double>(costs.cases);
  return "\n" + wrapped(fmt::format(
                            "Looking and work at wrong places, mean of {} cases of eight suspects: "
                            "{:.0f} min as proposed, {:.2f} times the least there is, {:.2f} times "
                            "a checklist, {:.2f} times any order",
                            costs.cases, costs.proposed / cases, costs.proposed / costs.exhaustive,
                            costs.proposed / costs.checklist, costs.proposed / costs.random),
                        0, 2);
}

}  // namespace

std::string self_test_text(const diagnose::SelfTest& test, const diagnose::Library& library,
                           const diagnose::TrialPlan& plan) {
  const diagnose::Scores& s = test.scores;
  TextTable table({{"of " + std::to_string(test.tried.size()) + " cases"}, {"", true}});
  table.add({"right answer first", percent(s.top1)});
  table.add({"within three", percent(s.top3)});
  table.add({"within five", percent(s.top5)});
  table.add({"each fault within five, alone or in a pair", percent(s.all5)});
  table.add({"right part within three", percent(s.part3)});
  table.add({"mean probability on the truth", fmt::format("{:.2f}", s.mean_p_true)});
  table.add({"calibration error", fmt::format("{:.3f}", s.ece)});
  table.add({"Brier score", fmt::format("{:.2f}", s.brier)});
  table.add({"confidently wrong", fmt::format("{:.1f} %", 100 * s.confidently_wrong)});
  table.add({"\"none of these\" first", fmt::format("{:.1f} %", 100 * s.none_first)});
  table.add({"\"none of these\" first or second", fmt::format("{:.1f} %", 100 * s.none_in_two)});
  table.add({"what hands do wrong, within three", percent(s.by_hand_in_three)});
  table.add({"right answer first, mean over faults", percent(s.top1_by_fault)});
  table.add({"within three, mean over faults", percent(s.top3_by_fault)});
  table.add({"mean checks till nine in ten", fmt::format("{:.1f}", s.mean_checks)});
  std::string text = table.text(0) + costs_text(test.costs);
  text += fmt::format("\nCases under assumptions: {}; the library's: {}\n", plan.assumptions.name,
                      library.installation->assumptions.name);
  text += "\nBy fault: right first of all\n";
  std::string line;
  for (const auto& [number, of] : test.per_fault(library))
    line += fmt::format("{} {}/{}, ", number, of.right, of.cases);
  text += wrapped(line.substr(0, line.size() - 2), 2, 2) + "\nMisses\n";
  std::size_t shown = 0;
  for (const diagnose::Tried& one : test.tried) {
    if (one.place == 1 || shown++ >= kMostMisses) continue;
    std::string truths;
    for (const auto& [suspect, severity] : one.truths)
      truths += (truths.empty() ? "" : " and ") +
                fmt::format("{} severity {:.2f}",
                            named(library.suspects[suspect], *library.installation), severity);
    text += wrapped(
        truths + fmt::format(": at place {} with {:.2f}; first {} with {:.2f}", one.place,
                             one.p_true, named(library.suspects[one.first], *library.installation),
                             one.p_first),
        2, 4);
    for (const Observation& o : one.told) text += wrapped(sentence(o, library.signs), 6, 8);
  }
  return text;
}

}  // namespace sixty::cli
