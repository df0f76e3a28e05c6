#include <fmt/format.h>

#include <nlohmann/json.hpp>

#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/library_input.hpp"
#include "sim/cli/link_view.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/scene_input.hpp"
#include "sim/diagnose/shelf.hpp"
#include "sim/practice/hunt.hpp"

namespace sixty::cli {
namespace {

using Json = nlohmann::ordered_json;
using practice::Deed;
using practice::Hunt;
using practice::Score;

std::string truth_text(const Hunt& hunt, const practice::Hidden& hidden) {
  const diagnose::Suspect& suspect = hunt.library().suspects[hidden.suspect];
  return fmt::format("{} at {}", full_name(*suspect.fault),
                     hunt.library().installation->parts[suspect.part].name);
}

std::string deed_text(std::size_t number, const Deed& deed) {
  const std::string place = deed.part.empty() ? "" : ", " + deed.part;
  std::string text =
      wrapped(fmt::format("{}. {}{} ({:g} min)", number, deed.what, place, deed.minutes), 0, 3);
  for (const std::string& found : deed.found) text += wrapped("- " + found, 3, 5);
  const bool looks = deed.kind == Deed::Kind::kCheck || deed.kind == Deed::Kind::kQuestion;
  const std::string bits =
      looks ? fmt::format(" {:.2f} bit, {:.2f} of the best expected.", deed.found_bits,
                          deed.expected_bits / std::max(deed.best_bits, 1e-9))
            : "";
  return text + wrapped(practice::sentence_of(deed.worth) + bits, 3, 3);
}

std::string score_text(const Score& score) {
  return fmt::format(
      "{}, {}. {:g} min, risk worth {:g} min. Needless checks: {}; dangerous ones: {}; good parts "
      "worked at: {}, of them without evidence: {}. {}",
      score.mended ? "Mended" : "Not mended", score.proved ? "and proved" : "not proved",
      score.minutes, score.harm, score.needless, score.harmful, score.good_parts, score.premature,
      !score.sufficed_after ? "The evidence never sufficed."
      : *score.sufficed_after == 0
          ? "What people said sufficed."
          : fmt::format("The evidence sufficed after deed {}.", *score.sufficed_after));
}

std::string hunt_text(const Hunt& hunt) {
  std::string text = wrapped("People say:", 0, 0);
  for (const diagnose::Observation& one : hunt.hidden().reports)
    text += wrapped("- " + diagnose::sentence(one, hunt.library().signs), 0, 2);
  text += "\n";
  for (std::size_t k = 0; k < hunt.deeds().size(); ++k) text += deed_text(k + 1, hunt.deeds()[k]);
  text += "\n" + wrapped(score_text(hunt.score()), 0, 0);
  for (const practice::Hidden& hidden : hunt.hidden().hidden)
    text += wrapped("It was " + truth_text(hunt, hidden) + ".", 0, 0);
  const auto links = practice::why_of(hunt.library(), hunt.hidden().hidden);
  return links.empty() ? text
                       : text + "Why it went otherwise than a sound one\n" + links_text(links);
}

Json deed_json(const Deed& deed) {
  static constexpr const char* kKinds[] = {"check", "question", "mend", "prove"};
  Json json;
  json["kind"] = kKinds[static_cast<std::size_t>(deed.kind)];
  json["what"] = deed.what;
  json["part"] = deed.part;
  json["minutes"] = deed.minutes;
  json["harm_min"] = deed.harm;
  json["expected_bits"] = deed.expected_bits;
  json["best_bits"] = deed.best_bits;
  json["found_bits"] = deed.found_bits;
  json["p_true"] = deed.p_true;
  json["remark"] = practice::sentence_of(deed.worth);
  json["found"] = deed.found;
  return json;
}

std::string hunt_json(const Hunt& hunt) {
  const Score score = hunt.score();
  Json json;
  json["format"] = "sixtybeats-hunt/1";
  json["scene"] = hunt.library().installation->name;
  json["level"] = practice::name_of(hunt.hidden().level);
  json["seed"] = hunt.hidden().seed;
  for (const diagnose::Observation& one : hunt.hidden().reports)
    json["reports"].push_back(diagnose::sentence(one, hunt.library().signs));
  for (const Deed& deed : hunt.deeds()) json["deeds"].push_back(deed_json(deed));
  json["score"] = {
      {"mended", score.mended},
      {"proved", score.proved},
      {"minutes", score.minutes},
      {"harm_min", score.harm},
      {"needless", score.needless},
      {"dangerous", score.harmful},
      {"good_parts", score.good_parts},
      {"premature", score.premature},
      {"sufficed_after", score.sufficed_after ? Json(*score.sufficed_after) : Json(nullptr)}};
  for (const practice::Hidden& hidden : hunt.hidden().hidden)
    json["hidden"].push_back(truth_text(hunt, hidden));
  json["why"] = links_json(practice::why_of(hunt.library(), hunt.hidden().hidden),
                           *hunt.library().installation);
  return json.dump(2) + "\n";
}

practice::Level level_of(const std::string& name, Diagnostics& mistakes) {
  const auto level = practice::level_named(name.empty() ? "obvious" : name);
  if (!level) {
    std::vector<std::string> names;
    for (std::size_t k = 0; k < practice::kLevels; ++k)
      names.emplace_back(practice::name_of(static_cast<practice::Level>(k)));
    add_unknown(mistakes, "--level: there is no such level", name, names);
  }
  return level.value_or(practice::Level::kObvious);
}

}  // namespace

int hunt_command(const HuntArguments& arguments, const Registry& registry) {
  Diagnostics mistakes;
  Mistakes reading(mistakes);
  const diagnose::Books books(registry, reading);
  const practice::Level level = level_of(arguments.level, mistakes);
  const std::uint64_t seed =
      count_of("--seed", arguments.scene.seed, 0, 1'000'000'000, mistakes).value_or(1);
  if (!arguments.scene.fault.empty())
    add_mistake(mistakes, "--fault: a hunt hides one by itself", arguments.scene.fault.front(),
                "--level and --seed", "leave --fault out");
  diagnose::LibraryPlan plan = plan_of(arguments.scene, arguments.library, mistakes);
  plan.changes.seed = std::nullopt;  // it chooses the case
  if (!mistakes.empty()) return refuse(mistakes);
  const auto library = diagnose::open_library(plan, registry, books.signs, books.faults, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  fill_or_find(*library, plan, arguments.library.cache, registry, {});
  const auto hidden = practice::draw_case(*library, level, seed);
  if (!hidden) {
    add_mistake(mistakes, "--level: no fault of this level shows anything in this scene",
                practice::name_of(level), "another level", "choose another one, or another scene");
    return refuse(mistakes);
  }
  Hunt hunt(*library, books.checks, *hidden);
  practice::play_best(hunt);
  print(arguments.json ? hunt_json(hunt) : hunt_text(hunt));
  return kOk;
}

}  // namespace sixty::cli
