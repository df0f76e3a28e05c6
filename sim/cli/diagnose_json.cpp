#include <map>
#include <nlohmann/json.hpp>

#include "sim/cli/diagnose_view.hpp"
#include "sim/cli/record_text.hpp"
#include "sim/diagnose/conflict.hpp"

namespace sixty::cli {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t kMostRanked = 50;

Json reasons_json(const diagnose::Ranked& one, const Diagnosis& d, bool in_favour) {
  Json all = Json::array();
  for (const auto& [o, weight] : speaking(one, d.ranking, in_favour)) {
    all.push_back(Json{{"observation", sentence(d.observations[o], d.library.signs)},
                       {"chance", one.chances[o]},
                       {"otherwise", d.ranking.expected[o]}});
  }
  return all;
}

Json fault_json(const diagnose::Suspect& suspect, const Installation& scene, double least,
                double most) {
  return Json{{"id", suspect.fault->number},
              {"name", suspect.fault->name},
              {"part", part_name(scene, suspect.part)},
              {"severity", {least, most}}};
}

Json ranked_json(const diagnose::Ranked& one, const Diagnosis& d) {
  Json faults = Json::array();
  for (const std::size_t number : one.suspects()) {
    const auto [least, most] = severities_of(one, number, d.library);
    faults.push_back(fault_json(d.library.suspects[number], *d.library.installation, least, most));
  }
  return Json{{"faults", faults},
              {"probability", one.probability},
              {"beforehand", one.beforehand},
              {"for", reasons_json(one, d, true)},
              {"against", reasons_json(one, d, false)}};
}

Json signs_json(const diagnose::Proposal& one, const Diagnosis& d) {
  Json all = Json::array();
  for (const std::size_t k : one.signs) {
    const diagnose::SignAt& at = d.library.signs[k];
    all.push_back(
        Json{{"part", part_name(*d.library.installation, at.part)}, {"sign", at.sign->name}});
  }
  return all;
}

Json next_json(const diagnose::Proposal& one, const Diagnosis& d) {
  const diagnose::SignAt& at = d.library.signs[one.sign];
  const auto or_null = [](const std::string& text) {
    return text.empty() ? Json(nullptr) : Json(text);
  };
  return Json{{"check", one.check->id},
              {"part", part_name(*d.library.installation, at.part)},
              {"sign", at.sign->name},
              {"what", one.check->what},
              {"gain_bits", one.gain_bits},
              {"saves_min", one.saved_min},
              {"cost_min", one.cost},
              {"minutes", one.check->minutes},
              {"needs", or_null(one.check->needs)},
              {"hazard", or_null(one.check->hazard)},
              {"care", or_null(one.check->care)},
              {"place", or_null(one.place)},
              {"shows", signs_json(one, d)}};
}

}  // namespace

std::string diagnosis_json(const Diagnosis& d) {
  Json whole;
  whole["format"] = "sixtybeats-diagnosis/1";
  whole["scene"] = d.library.installation->name;
  whole["known_beforehand"] = beforehand_words(known_with(d.observations));
  whole["ranking"] = Json::array();
  for (const diagnose::Ranked& one : d.ranking.ranked) {
    if (whole["ranking"].size() == kMostRanked) break;
    whole["ranking"].push_back(ranked_json(one, d));
  }
  Json unexplained = Json::array();
  for (const std::size_t o : d.ranking.unexplained)
    unexplained.push_back(sentence(d.observations[o], d.library.signs));
  whole["none_of_these"] =
      Json{{"probability", d.ranking.none_of_these}, {"unexplained", unexplained}};
  whole["conflicts"] = Json::array();
  for (const auto& [first, second] : conflicts_among(d.observations, d.library.signs))
    whole["conflicts"].push_back(Json{sentence(d.observations[first], d.library.signs),
                                      sentence(d.observations[second], d.library.signs)});
  whole["sound"] = Json{{"probability", d.ranking.sound}};
  Json gone = Json::array();
  for (const std::size_t o : diagnose::complaints(d.observations))
    gone.push_back(sentence(d.observations[o], d.library.signs));
  Json remedies = Json::array();
  for (const std::size_t number : d.ranking.ranked.front().suspects())
    remedies.push_back(d.library.suspects[number].fault->remedy);
  whole["cure"] = Json{{"remedies", remedies}, {"cured_when_gone", gone}};
  whole["next_checks"] = Json::array();
  for (const diagnose::Proposal& one : d.next) whole["next_checks"].push_back(next_json(one, d));
  whole["questions"] = Json::array();
  for (const diagnose::Proposal& one : d.questions) whole["questions"].push_back(next_json(one, d));
  whole["library"] = Json{{"simulations", d.facts.simulations},
                          {"built_s", d.facts.built_s},
                          {"reused", d.facts.reused}};
  return whole.dump(2) + "\n";
}

namespace {

/// What is proposed against other ways, and minutes of a case.
Json costs_json(const diagnose::CureCosts& costs) {
  if (costs.cases == 0) return nullptr;
  const auto cases = static_cast<double>(costs.cases);
  return Json{{"exhaustive", costs.proposed / costs.exhaustive},
              {"checklist", costs.proposed / costs.checklist},
              {"random", costs.proposed / costs.random},
              {"cases", costs.cases},
              {"proposed_min", costs.proposed / cases}};
}

/// Suspects that nothing tells apart, several to a group.
Json groups_json(const diagnose::SelfTest& test, const diagnose::Library& library) {
  std::map<std::size_t, std::vector<std::size_t>> members;
  for (std::size_t k = 0; k < test.groups.size(); ++k) members[test.groups[k]].push_back(k);
  Json all = Json::array();
  for (const auto& [group, suspects] : members) {
    if (suspects.size() < 2) continue;
    Json some = Json::array();
    for (const std::size_t k : suspects) {
      const diagnose::Suspect& one = library.suspects[k];
      some.push_back(
          Json{{"id", one.fault->number}, {"part", part_name(*library.installation, one.part)}});
    }
    all.push_back(some);
  }
  return all;
}

}  // namespace

std::string self_test_json(const diagnose::SelfTest& test, const diagnose::Library& library,
                           const diagnose::TrialPlan& plan) {
  const diagnose::Scores& s = test.scores;
  Json whole{
      {"format", "sixtybeats-self-test/1"},
      {"scene", library.installation->name},
      {"assumptions",
       {{"cases", plan.assumptions.name}, {"library", library.installation->assumptions.name}}},
      {"cases", test.tried.size()},
      {"top1", s.top1},
      {"top3", s.top3},
      {"top5", s.top5},
      {"all_in_five", s.all5},
      {"part_within_three", s.part3},
      {"mean_p_true", s.mean_p_true},
      {"ece", s.ece},
      {"brier", s.brier},
      {"confidently_wrong", s.confidently_wrong},
      {"none_first", s.none_first},
      {"none_in_two", s.none_in_two},
      {"mean_checks", s.mean_checks},
      {"cost_ratio", costs_json(test.costs)},
      {"by_hand", {{"cases", s.by_hand}, {"top3", s.by_hand_in_three}}},
      {"by_fault", {{"top1", s.top1_by_fault}, {"top3", s.top3_by_fault}}}};
  whole["groups"] = groups_json(test, library);
  whole["misses"] = Json::array();
  for (const diagnose::Tried& one : test.tried) {
    if (one.place == 1) continue;
    Json truths = Json::array();
    for (const auto& [suspect, severity] : one.truths)
      truths.push_back(
          fault_json(library.suspects[suspect], *library.installation, severity, severity));
    whole["misses"].push_back(
        Json{{"truths", truths},
             {"place", one.place},
             {"p_true", one.p_true},
             {"first", fault_json(library.suspects[one.first], *library.installation, 0, 1)},
             {"p_first", one.p_first}});
  }
  whole["per_fault"] = Json::array();
  for (const auto& [number, of] : test.per_fault(library))
    whole["per_fault"].push_back(
        Json{{"id", number}, {"cases", of.cases}, {"top1", of.right}, {"top3", of.in_three}});
  return whole.dump(2) + "\n";
}

}  // namespace sixty::cli
