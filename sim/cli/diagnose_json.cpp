#include <nlohmann/json.hpp>

#include "sim/cli/diagnose_view.hpp"
#include "sim/cli/record_text.hpp"

namespace sixty::cli {
namespace {

using Json = nlohmann::ordered_json;

constexpr std::size_t kMostRanked = 50;

Json reasons(const diagnose::Ranked& one, const Diagnosis& d, bool in_favour) {
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
  return Json{
      {"faults", Json::array({fault_json(d.library.suspects[one.suspect], *d.library.installation,
                                         one.least_severity, one.most_severity)})},
      {"probability", one.probability},
      {"for", reasons(one, d, true)},
      {"against", reasons(one, d, false)}};
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
              {"minutes", one.check->minutes},
              {"needs", or_null(one.check->needs)},
              {"hazard", or_null(one.check->hazard)},
              {"care", or_null(one.check->care)}};
}

}  // namespace

std::string diagnosis_json(const Diagnosis& d) {
  Json whole;
  whole["format"] = "sixtybeats-diagnosis/1";
  whole["scene"] = d.library.installation->name;
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
  whole["sound"] = Json{{"probability", d.ranking.sound}};
  whole["next_checks"] = Json::array();
  for (const diagnose::Proposal& one : d.next) whole["next_checks"].push_back(next_json(one, d));
  whole["library"] = Json{{"simulations", d.facts.simulations},
                          {"built_s", d.facts.built_s},
                          {"reused", d.facts.reused}};
  return whole.dump(2) + "\n";
}

std::string self_test_json(const diagnose::SelfTest& test, const diagnose::Library& library) {
  const diagnose::Scores& s = test.scores;
  Json whole{{"format", "sixtybeats-self-test/1"},
             {"scene", library.installation->name},
             {"cases", test.tried.size()},
             {"top1", s.top1},
             {"top3", s.top3},
             {"part_within_three", s.part3},
             {"mean_p_true", s.mean_p_true},
             {"ece", s.ece},
             {"brier", s.brier},
             {"confidently_wrong", s.confidently_wrong},
             {"false_none", s.false_none},
             {"mean_checks", s.mean_checks}};
  whole["misses"] = Json::array();
  for (const diagnose::Tried& one : test.tried) {
    const diagnose::Suspect& truth = library.suspects[one.truth];
    if (one.place == 1) continue;
    whole["misses"].push_back(
        Json{{"truth",
              fault_json(truth, *library.installation, one.manner.severity, one.manner.severity)},
             {"place", one.place},
             {"p_true", one.p_true},
             {"first", fault_json(library.suspects[one.first], *library.installation, 0, 1)},
             {"p_first", one.p_first}});
  }
  whole["per_fault"] = Json::array();
  for (const auto& [number, of] : test.per_fault(library))
    whole["per_fault"].push_back(Json{{"id", number}, {"cases", of.cases}, {"top1", of.right}});
  return whole.dump(2) + "\n";
}

}  // namespace sixty::cli
