#include <fmt/format.h>

#include "sim/base/text.hpp"
#include "sim/cli/diagnose_view.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/record_text.hpp"
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

std::string ranked_text(const Ranked& one, const Diagnosis& d) {
  const Suspect& suspect = d.library.suspects[one.suspect];
  std::string text =
      fmt::format("  {:>5}  {}{}\n", percent(one.probability),
                  named(suspect, *d.library.installation), degree_words(one, *suspect.fault));
  text += wrapped(suspect.fault->title, 9, 9);
  text += reasons(one, d, true) + reasons(one, d, false);
  text += wrapped("to make sure: " + suspect.fault->check, 6, 8);
  if (!suspect.fault->caution.empty()) text += wrapped("care: " + suspect.fault->caution, 6, 8);
  return text;
}

/// What to do about the leader, and how to see that it was that.
std::string cure_text(const Diagnosis& d) {
  const Ranked& leader = d.ranking.ranked.front();
  const Suspect& suspect = d.library.suspects[leader.suspect];
  std::string text = "\nIf it is the first\n";
  text += wrapped("remedy: " + suspect.fault->remedy, 2, 4);
  if (!suspect.fault->caution.empty()) text += wrapped("care: " + suspect.fault->caution, 2, 4);
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

std::string diagnosis_text(const Diagnosis& d) {
  std::string text = "What explains it\n";
  for (const Ranked* one : worth_telling(d.ranking, kMostShown)) text += ranked_text(*one, d);
  text += fmt::format("  {:>5}  none of these\n", percent(d.ranking.none_of_these));
  text += fmt::format("  {:>5}  nothing is the matter\n", percent(d.ranking.sound));
  for (const std::size_t o : d.ranking.unexplained) {
    text += wrapped("The first does not explain: " + sentence(d.observations[o], d.library.signs),
                    2, 4);
  }
  return text + cure_text(d) + questions_text(d) + next_text(d) +
         fmt::format("\nBy {} runs of the installation.\n", d.facts.simulations);
}

std::string self_test_text(const diagnose::SelfTest& test, const diagnose::Library& library) {
  const diagnose::Scores& s = test.scores;
  TextTable table({{"of " + std::to_string(test.tried.size()) + " cases"}, {"", true}});
  table.add({"right answer first", percent(s.top1)});
  table.add({"within three", percent(s.top3)});
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
  std::string text = table.text(0);
  text += "\nBy fault: right first of all\n";
  std::string line;
  for (const auto& [number, of] : test.per_fault(library))
    line += fmt::format("{} {}/{}, ", number, of.right, of.cases);
  text += wrapped(line.substr(0, line.size() - 2), 2, 2) + "\nMisses\n";
  std::size_t shown = 0;
  for (const diagnose::Tried& one : test.tried) {
    if (one.place == 1 || shown++ >= kMostMisses) continue;
    text +=
        wrapped(fmt::format("{} severity {:.2f}: at place {} with {:.2f}; first {} with {:.2f}",
                            named(library.suspects[one.truth], *library.installation),
                            one.manner.severity, one.place, one.p_true,
                            named(library.suspects[one.first], *library.installation), one.p_first),
                2, 4);
    for (const Observation& o : one.told) text += wrapped(sentence(o, library.signs), 6, 8);
  }
  return text;
}

}  // namespace sixty::cli
