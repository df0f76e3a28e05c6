#include <algorithm>
#include <nlohmann/json.hpp>

#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/interrupt.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/link_view.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/progress.hpp"
#include "sim/cli/record_text.hpp"
#include "sim/cli/scene_input.hpp"
#include "sim/explain/chain.hpp"

namespace sixty::cli {
namespace {

using Json = nlohmann::ordered_json;

constexpr SimTime kComparedSpan = kDay;
constexpr std::size_t kMostReadings = 12;

struct Answer {
  explain::Comparison comparison;
  std::vector<explain::Link> chain;
};

using TallyLine = std::pair<std::pair<PartId, std::string_view>, explain::Tally>;

/// By when each differed first.
std::vector<TallyLine> in_order(const explain::Tallies& tallies) {
  std::vector<TallyLine> lines(tallies.begin(), tallies.end());
  std::stable_sort(lines.begin(), lines.end(), [](const TallyLine& a, const TallyLine& b) {
    return a.second.first < b.second.first;
  });
  return lines;
}

std::string deeds_text(const explain::Comparison& c, const Installation& scene) {
  if (c.tallies.empty()) return "";
  TextTable table({{"part"}, {"what"}, {"missing", true}, {"too many", true}, {"from"}});
  for (const auto& [key, tally] : in_order(c.tallies)) {
    table.add({part_name(scene, key.first), std::string(key.second), std::to_string(tally.missing),
               std::to_string(tally.extra), explain::when_text(scene, tally.first)});
  }
  return "\nWhat went otherwise\n" + table.text(2);
}

std::string readings_text(const explain::Comparison& c, const Installation& scene) {
  if (c.readings.empty()) return "";
  TextTable table({{"part"}, {"reading"}, {"is", true}, {"when sound", true}, {"at"}});
  const std::size_t shown = std::min(c.readings.size(), kMostReadings);
  for (std::size_t k = 0; k < shown; ++k) {
    const explain::OtherReading& r = c.readings[k];
    const NamedDecl& reading = scene.parts[r.part].kind->declaration.readings[r.reading];
    table.add({part_name(scene, r.part), reading.name, explain::value_text(r.ours, reading),
               explain::value_text(r.sound, reading), explain::when_text(scene, r.first)});
  }
  if (shown < c.readings.size()) table.remark(std::to_string(c.readings.size() - shown) + " more");
  return "\nWhat reads otherwise (looked at every ten minutes, later more rarely)\n" +
         table.text(2);
}

std::string answer_text(const Answer& answer, const Installation& scene) {
  const explain::Comparison& c = answer.comparison;
  if (!c.first && c.readings.empty()) return "No difference from a sound installation.\n";
  std::string text = "First difference from a sound installation, and what is behind it\n";
  return text + links_text(answer.chain) + deeds_text(c, scene) + readings_text(c, scene);
}

std::string answer_json(const Answer& answer, const Installation& scene) {
  Json whole;
  whole["format"] = "sixtybeats-compare/1";
  whole["scene"] = scene.name;
  whole["links"] = links_json(answer.chain, scene);
  whole["differences"] = Json::array();
  for (const auto& [key, tally] : in_order(answer.comparison.tallies)) {
    whole["differences"].push_back(Json{{"part", part_name(scene, key.first)},
                                        {"what", key.second},
                                        {"missing", tally.missing},
                                        {"extra", tally.extra},
                                        {"first_s", to_seconds(tally.first)}});
  }
  whole["readings"] = Json::array();
  for (const explain::OtherReading& r : answer.comparison.readings) {
    const NamedDecl& reading = scene.parts[r.part].kind->declaration.readings[r.reading];
    whole["readings"].push_back(
        Json{{"part", part_name(scene, r.part)},
             {"reading", reading.name},
             {"unit", reading.unit.empty() ? Json(nullptr) : Json(reading.unit)},
             {"first_s", to_seconds(r.first)},
             {"measured", r.ours},
             {"expected", r.sound}});
  }
  return whole.dump(2) + "\n";
}

}  // namespace

int compare_command(const CompareArguments& arguments, const Registry& registry) {
  Diagnostics mistakes;
  const auto scene = load(arguments.scene, registry, mistakes);
  const auto sound = scene ? load_sound(arguments.scene, registry, mistakes) : nullptr;
  const SimTime until = duration_of("--for", arguments.span, mistakes).value_or(kComparedSpan);
  if (mistakes.empty()) check_actions(*scene, until, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  const auto in_common = explain::session_options();
  Session looked_at(scene, in_common), twin(sound, in_common);
  Answer answer;
  {
    Progress progress(can_show_progress(), *scene);
    answer.comparison = explain::compare(looked_at, twin, until, false, [&](SimTime now) {
      progress.show(now, until);
      end_if_interrupted();
    });
  }
  answer.chain = explain::chain_of(looked_at, twin, answer.comparison);
  print(arguments.json ? answer_json(answer, *scene) : answer_text(answer, *scene));
  return kOk;
}

}  // namespace sixty::cli
