// What learners have done, for an instructor.
#include <fmt/format.h>

#include <algorithm>

#include "sim/diagnose/markup.hpp"
#include "sim/practice/progress.hpp"

namespace sixty::practice {
namespace {

using diagnose::escaped;

constexpr const char* kHead =
    "<!DOCTYPE html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"/><title>Learners</title>\n"
    "<style>body{font-family:sans-serif;max-width:60em;margin:2em auto;color:#111}"
    "table{border-collapse:collapse;margin:0 0 1.5em}"
    "td,th{border:1px solid #777;padding:.25em .6em;text-align:left}"
    "td.n{text-align:right}</style></head><body>\n<h1>Learners</h1>\n";

/// Source: RFC 4180, section 2.
std::string cell(const std::string& text) {
  if (text.find_first_of(",\"\r\n") == std::string::npos) return text;
  std::string quoted = "\"";
  for (const char c : text) quoted += c == '"' ? "\"\"" : std::string(1, c);
  return quoted + "\"";
}

std::string hunt_row(const HuntTaken& one) {
  const char* end = one.proved ? "mended and proved" : one.mended ? "mended" : "not found";
  return fmt::format(
      "<tr><td>{}</td><td>{}</td><td class=\"n\">{}</td><td>{}</td><td class=\"n\">{:.0f}</td>"
      "<td class=\"n\">{:.0f}</td><td class=\"n\">{}</td><td class=\"n\">{}</td>"
      "<td class=\"n\">{}</td></tr>\n",
      escaped(one.scene), escaped(one.level), one.seed, end, one.minutes, one.best_minutes,
      one.needless, one.harmful, one.good_parts);
}

std::string learner_html(const Progress& progress) {
  std::string html = fmt::format(
      "<h2>{}</h2>\n<table><tr><th>topic</th><th>steps</th>"
      "<th>mastered</th></tr>\n",
      escaped(progress.learner));
  for (const auto& [topic, mastery] : mastery_of(progress))
    html +=
        fmt::format("<tr><td>{}</td><td class=\"n\">{}</td><td class=\"n\">{:.0f} %</td></tr>\n",
                    escaped(topic), mastery.steps, 100 * mastery.share);
  html += "</table>\n";
  if (progress.hunts.empty()) return html;
  html +=
      "<table><tr><th>scene</th><th>level</th><th>seed</th><th>end</th><th>minutes</th>"
      "<th>of the best</th><th>needless</th><th>dangerous</th><th>good parts</th></tr>\n";
  for (const HuntTaken& one : progress.hunts) html += hunt_row(one);
  return html + "</table>\n";
}

}  // namespace

std::string progress_csv(const std::vector<Progress>& all) {
  std::string csv = "learner,topic,steps,mastered_percent\r\n";
  for (const Progress& progress : all) {
    for (const auto& [topic, mastery] : mastery_of(progress))
      csv += fmt::format("{},{},{},{:.0f}\r\n", cell(progress.learner), cell(topic), mastery.steps,
                         100 * mastery.share);
    const auto proved = std::count_if(progress.hunts.begin(), progress.hunts.end(),
                                      [](const HuntTaken& one) { return one.proved; });
    if (!progress.hunts.empty())
      csv += fmt::format(
          "{},hunts,{},{:.0f}\r\n", cell(progress.learner), progress.hunts.size(),
          100.0 * static_cast<double>(proved) / static_cast<double>(progress.hunts.size()));
  }
  return csv;
}

std::string progress_html(const std::vector<Progress>& all) {
  std::string html = kHead;
  for (const Progress& progress : all) html += learner_html(progress);
  return html + "</body></html>\n";
}

}  // namespace sixty::practice
