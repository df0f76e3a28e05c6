#include "sim/diagnose/page.hpp"

#include <fmt/format.h>

#include "sim/base/text.hpp"
#include "sim/diagnose/conflict.hpp"
#include "sim/diagnose/markup.hpp"
#include "sim/diagnose/plan_drawing.hpp"
#include "sim/diagnose/wording.hpp"
#include "sim/words/words.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::size_t kMostShown = 10;

constexpr const char* kStyle = R"(
body{font-family:sans-serif;color:#000;background:#fff;max-width:52em;margin:1.5em auto;padding:0 1em}
h1{font-size:1.5em;margin-bottom:0}h2{font-size:1.15em;margin-top:1.6em}
ol,ul{padding-left:1.4em}li{margin:.25em 0}
.suspect{border-top:1px solid #777;padding:.5em 0;break-inside:avoid}
.share{font-weight:bold}.bar{height:.45em;border:1px solid #000;margin:.3em 0}
.bar div{height:100%;background:#000;-webkit-print-color-adjust:exact;print-color-adjust:exact}
.second{color:#444;font-size:.92em}
.care{border:2px solid #000;padding:.3em .6em;margin:.4em 0;font-weight:bold}
.check{border-top:1px solid #777;padding:.5em 0;break-inside:avoid}
svg{width:100%;height:auto}figure{margin:0;break-inside:avoid}
@media print{body{margin:0;max-width:none}}
)";

std::string tag(const char* name, const char* kind, const std::string& text) {
  return fmt::format("<{0} class=\"{1}\">{2}</{0}>\n", name, kind, escaped(text));
}

std::string heading(const std::string& text) { return "<h2>" + escaped(text) + "</h2>\n"; }

std::string told(const Observation& one, const Library& library) {
  return words_of_key(sentence(one, library.signs));
}

std::string care_box(const std::string& text) {
  return text.empty() ? "" : tag("div", "care", say("Caution: {}", text));
}

/// Its faults, and the room of each that has one.
std::string faults_and_rooms(const Page& page, const Ranked& one) {
  std::string text = fault_words(one, page.library);
  for (const std::size_t number : one.suspects()) {
    const PartId part = page.library.suspects[number].part;
    const std::string& room = page.library.installation->parts[part].room;
    if (!room.empty()) text = say("{}, in {}", text, words_of_key(room));
  }
  return text;
}

std::string reasons(const Page& page, const Ranked& one, bool in_favour) {
  std::string text;
  for (const Speaks& reason : speaking(one, page.ranking, in_favour)) {
    const std::string words =
        words_of_key(reason_words(reason, one, page.ranking, page.observations, page.library));
    text += tag("li", "second", in_favour ? say("for: {}", words) : say("against: {}", words));
  }
  return text;
}

std::string suspect_html(const Page& page, const Ranked& one, std::size_t place) {
  std::string text = "<div class=\"suspect\">\n";
  text += tag("div", "share",
              fmt::format("{}. {}  {}", place, percent(one.probability),
                          words_of_key(title_of(one, page.library))));
  text += fmt::format("<div class=\"bar\"><div style=\"width:{:.1f}%\"></div></div>\n",
                      100 * one.probability);
  text += tag("div", "second", faults_and_rooms(page, one));
  const std::string why = reasons(page, one, true) + reasons(page, one, false);
  if (!why.empty()) text += "<ul>\n" + why + "</ul>\n";
  for (const std::size_t number : one.suspects()) {
    const Fault& fault = *page.library.suspects[number].fault;
    if (!fault.check.empty()) text += tag("div", "sure", say("To make sure: {}.", tr(fault.check)));
    if (!fault.remedy.empty()) text += tag("div", "sure", say("Remedy: {}.", tr(fault.remedy)));
  }
  return text + care_box(care_of(one, page.library)) + "</div>\n";
}

std::string ranking_html(const Page& page) {
  std::string text = heading(tr("What explains it"));
  std::size_t place = 0;
  for (const Ranked* one : worth_telling(page.ranking, kMostShown))
    text += suspect_html(page, *one, ++place);
  text += "<div class=\"suspect\">\n" +
          tag("div", "share", say("{}  none of these", percent(page.ranking.none_of_these))) +
          tag("div", "share", say("{}  nothing is the matter", percent(page.ranking.sound)));
  for (const std::size_t o : page.ranking.unexplained)
    text += tag("div", "second",
                say("The first does not explain: {}", told(page.observations[o], page.library)));
  return text + "</div>\n";
}

/// What to do about the leader, and how to see that it was that.
std::string cure_html(const Page& page) {
  const Ranked& first = page.ranking.ranked.front();
  std::string text = heading(tr("If it is the first"));
  for (const std::size_t number : first.suspects()) {
    const Fault& fault = *page.library.suspects[number].fault;
    if (!fault.remedy.empty()) text += tag("p", "sure", say("Remedy: {}.", tr(fault.remedy)));
  }
  text += care_box(care_of(first, page.library));
  const std::vector<std::size_t> gone = complaints(page.observations);
  if (gone.empty()) return text;
  text += tag("p", "sure", tr("It is cured when this is so no longer:")) + "<ul>\n";
  for (const std::size_t o : gone)
    text += tag("li", "told", told(page.observations[o], page.library));
  return text + "</ul>\n";
}

std::string proposal_html(const Page& page, const Proposal& one) {
  std::string text = "<div class=\"check\">\n";
  text += tag("div", "share", say("{}: {}.", words_of_key(title_of(one)), tr(one.check->what)));
  text += tag("div", "sure", words_of_key(question_words(one, page.library)));
  text += tag("div", "second", effort_words(one));
  if (!one.check->care.empty())
    text += care_box(tr(one.check->hazard) + "; " + tr(one.check->care));
  return text + "</div>\n";
}

std::string next_html(const Page& page) {
  std::string text = heading(tr("What to ask and check next"));
  if (page.questions.empty() && page.checks.empty())
    return text + tag("p", "sure", tr("No check at hand would tell more."));
  for (const Proposal& one : page.questions) text += proposal_html(page, one);
  for (const Proposal& one : page.checks) text += proposal_html(page, one);
  return text;
}

std::string plan_html(const Page& page) {
  std::vector<PlanMark> marks;
  std::size_t place = 0;
  for (const Ranked* one : worth_telling(page.ranking, kMostShown)) {
    ++place;
    for (const std::size_t number : one->suspects())
      marks.push_back({page.library.suspects[number].part, place, one->probability});
  }
  return heading(tr("Where")) + "<figure>\n" + plan_svg(*page.library.installation, marks) +
         "</figure>\n" +
         tag("p", "second",
             tr("Rings are parts that are suspected; hexagons have their number in the list above, "
                "the first one filled."));
}

std::string noticed_html(const Page& page) {
  std::string text = heading(tr("What was noticed")) + "<ul>\n";
  for (const Observation& one : page.observations)
    text += tag("li", one.checked ? "looked" : "told", told(one, page.library));
  text += "</ul>\n";
  for (const Conflict& conflict : conflicts_among(page.observations, page.library.signs))
    text += tag("p", "sure",
                say("The evidence conflicts; {}",
                    words_of_key(conflict_words(conflict, page.observations, page.library.signs))));
  const std::string known = beforehand_list(known_with(page.observations));
  if (!known.empty())
    text += tag("p", "known", say("What was known beforehand: {}.", words_of_key(known)));
  return text;
}

}  // namespace

std::string page_html(const Page& page) {
  const Installation& scene = *page.library.installation;
  const std::string title = say("What may be the matter with {}", scene.title);
  return "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"" + spoken().code +
         "\">\n<head>\n<meta charset=\"utf-8\"/>\n<title>" + escaped(title) + "</title>\n<style>" +
         kStyle + "</style>\n</head>\n<body>\n<h1>" + escaped(title) + "</h1>\n" +
         tag("p", "second",
             say("Scene {}, watched from {} on.", scene.name, format_iso(scene.clock, 0, 0)) + " " +
                 say_counted("By {} runs of the installation.", "By {} runs of the installation.",
                             static_cast<std::int64_t>(page.library.simulations))) +
         ranking_html(page) + plan_html(page) + cure_html(page) + next_html(page) +
         noticed_html(page) +
         tag("p", "care",
             tr("A model, not a permit: mains, cells, currents that are cut off, wound springs "
                "and a heavy bob can hurt. Keep to the cautions, and to local rules.")) +
         "</body>\n</html>\n";
}

}  // namespace sixty::diagnose
