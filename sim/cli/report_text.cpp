#include "sim/cli/report_text.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sim/base/text.hpp"
#include "sim/base/units.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/record_text.hpp"

namespace sixty::cli {
namespace {

constexpr std::size_t kMostSentences = 12;  // under one heading
constexpr std::size_t kMostNames = 8;       // before one sentence

// A sentence and everyone of whom it is true.
struct Shared {
  std::vector<std::string> names;
  std::string rest;
};

Shared taken_apart(const std::string& sentence) {
  const std::size_t colon = sentence.find(": ");
  if (colon == std::string::npos) return {{}, sentence};
  return {{sentence.substr(0, colon)}, sentence.substr(colon + 2)};
}

std::vector<Shared> shared_sentences(const std::vector<std::string>& sentences) {
  std::vector<Shared> all;
  for (const std::string& sentence : sentences) {
    Shared one = taken_apart(sentence);
    const auto same = [&](const Shared& s) {
      return !one.names.empty() && !s.names.empty() && s.rest == one.rest;
    };
    const auto found = std::find_if(all.begin(), all.end(), same);
    if (found == all.end()) {
      all.push_back(std::move(one));
    } else {
      found->names.push_back(one.names.front());
    }
  }
  return all;
}

std::string names_text(const std::vector<std::string>& names) {
  const std::size_t shown = names.size() <= kMostNames ? names.size() : kMostNames - 2;
  std::string text;
  for (std::size_t i = 0; i < shown; ++i) text += (i == 0 ? "" : ", ") + names[i];
  if (shown < names.size()) text += fmt::format(" and {} more", names.size() - shown);
  return text;
}

std::string sentence_text(const Shared& shared) {
  return shared.names.empty() ? shared.rest : names_text(shared.names) + ": " + shared.rest;
}

std::string date_and_weekday(const CivilClock& clock, SimTime t) {
  const std::string iso = format_iso(clock, t, kExactFraction);
  const std::string weekday = format_weekday_time(clock, t, 0).substr(0, 3);
  return weekday + " " + iso.substr(0, 10) + " " + iso.substr(11);
}

// "beats 604,800, arc 1.75 deg".
std::string facts_line(const Report& report) {
  std::string text;
  for (const Report::Section& section : report.sections()) {
    if (section.name != kTopLevelSection) continue;
    for (const Cell& cell : section.rows.front().cells()) {
      text +=
          fmt::format("{}{} {}", text.empty() ? "" : ", ", words_of_key(cell.key), cell_text(cell));
    }
  }
  return text;
}

std::string head_text(const Report& report, const RunFacts& facts) {
  const Installation& scene = *facts.installation;
  const CivilClock& clock = clock_of(scene);
  std::string text = wrapped(scene.title.empty() ? scene.name : scene.title, 0, 0);
  text += wrapped(fmt::format("Scene {}, seed {}: {} simulated,", scene.name, scene.seed,
                              format_duration(facts.simulated)),
                  0, 2);
  text += fmt::format("{} to {}\n", date_and_weekday(clock, 0),
                      date_and_weekday(clock, facts.simulated));
  const std::string line = facts_line(report);
  if (!line.empty()) text += wrapped(line, 0, 2);
  return text + std::string(kWidth, '=') + "\n";
}

std::string heading_text(const std::string& heading) { return "\n" + heading + "\n"; }

const Report::Section* table_of(const Report& report, const std::string& heading) {
  for (const Report::Section& section : report.sections()) {
    const bool shown = section.list && !section.rows.empty();
    if (shown && words_of_key(section.name, true) == heading) return &section;
  }
  return nullptr;
}

bool is_on_top(const std::string& heading) {
  return heading == kTimeKeptHeading || heading == kMissedHeading;
}

// What a page on the wall is looked at for: time kept, what was missed, the weakest points.
std::string top_text(const Report& report) {
  std::string text;
  for (const char* wanted : {kTimeKeptHeading, kMissedHeading}) {
    for (const auto& [heading, sentences] : report.said()) {
      if (heading != wanted) continue;
      text += heading_text(heading);
      text += sentences.empty() ? "  nothing\n" : sentences_text(sentences);
    }
  }
  for (const Report::Section& section : report.sections()) {
    if (section.name != kMarginsSection) continue;
    text += heading_text("Weakest points (volts that arrived, volts that pull in)");
    text += section_text(section);
  }
  return text;
}

// Each heading with its sentences, and with the table of the same name if there is one.
std::string said_text(const Report& report) {
  std::string text;
  for (const auto& [heading, sentences] : report.said()) {
    if (is_on_top(heading)) continue;
    text += heading_text(heading) + sentences_text(sentences);
    if (const Report::Section* section = table_of(report, heading)) {
      text += "\n" + section_text(*section);
    }
  }
  return text;
}

bool has_heading(const Report& report, const std::string& heading) {
  return std::any_of(report.said().begin(), report.said().end(),
                     [&](const auto& said) { return said.first == heading; });
}

std::string other_tables_text(const Report& report) {
  std::string text;
  for (const Report::Section& section : report.sections()) {
    const std::string heading = words_of_key(section.name, true);
    if (!section.list || section.rows.empty() || has_heading(report, heading)) continue;
    if (section.name == kMarginsSection) continue;
    text += heading_text(heading) + section_text(section);
  }
  return text;
}

std::string warnings_text(const std::vector<std::string>& warnings) {
  if (warnings.empty()) return "\nNo warnings.\n";
  std::string text = heading_text(fmt::format("WARNINGS ({})", warnings.size()));
  for (const Shared& shared : shared_sentences(warnings)) {
    text += wrapped("! " + sentence_text(shared), 2, 4);
  }
  return text;
}

}  // namespace

std::string sentences_text(const std::vector<std::string>& sentences) {
  const std::vector<Shared> all = shared_sentences(sentences);
  const std::size_t shown = std::min(all.size(), kMostSentences);
  std::string text;
  for (std::size_t i = 0; i < shown; ++i) text += wrapped(sentence_text(all[i]), 2, 4);
  if (shown < all.size()) text += fmt::format("  ... and {} more\n", all.size() - shown);
  return text;
}

std::vector<std::string> warnings_of(const Report& report, const RunFacts& facts) {
  std::vector<std::string> warnings = report.warnings();
  if (facts.interrupted) {
    warnings.push_back("The run was interrupted; everything here is up to " +
                       date_and_weekday(clock_of(*facts.installation), facts.simulated) + ".");
  }
  return warnings;
}

std::string report_text(const Report& report, const RunFacts& facts) {
  std::string text = head_text(report, facts);
  text += top_text(report) + said_text(report) + other_tables_text(report);
  text += warnings_text(warnings_of(report, facts));
  return text + fmt::format("\n{} {} in {:.2f} s of computing\n",
                            grouped(static_cast<std::int64_t>(facts.events)),
                            facts.events == 1 ? "event" : "events", facts.wall_s);
}

}  // namespace sixty::cli
