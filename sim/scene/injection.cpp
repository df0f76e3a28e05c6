#include "sim/scene/injection.hpp"

#include <algorithm>
#include <utility>

#include "sim/base/clock_time.hpp"
#include "sim/base/text.hpp"
#include "sim/part/links.hpp"
#include "sim/scene/script.hpp"
#include "sim/scene/values.hpp"

namespace sixty {
namespace {

constexpr const char* kForm = "ID@PART[:SEVERITY][,from=TIME][,until=TIME][,course=COURSE]";

/// The head of the text and what follows it, by commas.
struct Pieces {
  std::string id, part, severity, from, until, course;
};

bool take_apart(const Written& written, Pieces& pieces, Mistakes& mistakes) {
  const auto refuse = [&](const std::string& what, const std::string& found) {
    mistakes.add(written.place, {labelled(written, what), found, kForm,
                                 "write it like F13@PART:0.5, from=Tue 09:00"});
    return false;
  };
  const std::string& text = written.text;
  const std::size_t head_end = std::min(text.find(','), text.size());
  const std::string head = trimmed(text.substr(0, head_end));
  const std::size_t at = head.find('@');
  if (at == std::string::npos) return refuse("a fault and a part belong here", text);
  const std::size_t colon = head.find(':', at);
  pieces.id = head.substr(0, at);
  pieces.part = head.substr(at + 1, colon == std::string::npos ? colon : colon - at - 1);
  if (colon != std::string::npos) pieces.severity = head.substr(colon + 1);
  for (std::size_t begin = head_end; begin < text.size();) {
    const std::size_t end = std::min(text.find(',', begin + 1), text.size());
    const std::string piece = trimmed(text.substr(begin + 1, end - begin - 1));
    const std::size_t equals = piece.find('=');
    const std::string key = piece.substr(0, equals);
    std::string* into = key == "from"     ? &pieces.from
                        : key == "until"  ? &pieces.until
                        : key == "course" ? &pieces.course
                                          : nullptr;
    if (equals == std::string::npos || into == nullptr)
      return refuse("this says nothing of a fault", piece);
    if (!into->empty()) return refuse("said twice", piece);
    *into = trimmed(piece.substr(equals + 1));
    begin = end;
  }
  return true;
}

std::vector<std::string> known_ids(const FaultBook& book, const Registry::Entry& kind) {
  std::vector<std::string> ids;
  for (const auto& fault : book.all()) {
    if (fault->kind == &kind) ids.push_back(fault->name);
  }
  return ids;
}

bool read_course(const std::string& text, const Written& written, Course& course,
                 Mistakes& mistakes) {
  if (text.empty()) return true;
  Diagnostic mistake;
  const std::optional<Course> found = parse_course(text, mistake);
  if (!found) {
    mistakes.add(written.place,
                 {labelled(written, mistake.what), mistake.found, mistake.expected, mistake.mend});
    return false;
  }
  course = *found;
  return true;
}

bool read_severity(const std::string& text, const Written& written, double& severity,
                   Mistakes& mistakes) {
  if (text.empty()) return true;
  const ParamDecl decl = quantity_field("severity", "1", 0.001, 1, "");
  const auto value = check_text(decl, {written.label, text, written.place}, mistakes);
  if (value) severity = value->number;
  return value.has_value();
}

bool takes_air(Course::Kind kind) {
  return kind == Course::Kind::kKnocks || kind == Course::Kind::kBelow ||
         kind == Course::Kind::kAbove || kind == Course::Kind::kDamp;
}

}  // namespace

std::vector<Action> read_fault(const Written& written, const Draft& draft, const FaultBook& book,
                               Mistakes& mistakes) {
  Pieces pieces;
  if (!take_apart(written, pieces, mistakes)) return {};
  const DraftPart* part = find_part(draft, pieces.part, written, mistakes);
  if (part == nullptr) return {};
  Injection put;
  put.part = draft.by_name.at(pieces.part);
  put.fault = book.find(pieces.id, *part->kind);
  if (put.fault == nullptr) {
    mistakes.add_unknown(written.place, titled(*part), "fault", pieces.id,
                         known_ids(book, *part->kind));
    return {};
  }
  put.severity = put.fault->typical;
  put.course = put.fault->course;
  Action action;
  action.part = put.part;
  action.text = written.text;
  bool sound = read_severity(pieces.severity, written, put.severity, mistakes);
  sound = read_course(pieces.course, written, put.course, mistakes) && sound;
  Action clear = action;
  if (!pieces.from.empty()) {
    const auto t = read_time(pieces.from, draft.clock, 0, written, mistakes);
    action.at = t.value_or(0);
    sound = sound && t;
  }
  if (!pieces.until.empty()) {
    const auto t = read_time(pieces.until, draft.clock, action.at, written, mistakes);
    clear.at = t.value_or(0);
    sound = sound && t;
  }
  if (sound && !pieces.until.empty() && clear.at <= action.at) {
    mistakes.add(written.place, {labelled(written, "it would be cleared before it is put in"),
                                 pieces.until, "an instant behind the one that it begins at",
                                 "choose a later until=, or leave it out"});
    return {};
  }
  if (!sound) return {};
  action.fault = clear.fault = std::make_shared<const Injection>(std::move(put));
  clear.clears = true;
  if (pieces.until.empty()) return {action};
  return {action, clear};
}

/// Tries it at once, so that nobody finds out in the midst of a run.
void check_fault(const Action& action, const Written& written, const Installation& installation,
                 Mistakes& mistakes) {
  const Fault& fault = *action.fault->fault;
  const PartInstance& part = installation.parts[action.part];
  const auto refuse = [&](const std::string& what, const std::string& expected) {
    mistakes.add(written.place, {labelled(written, what), written.text, expected,
                                 "choose another part, or another severity"});
  };
  if (!fits(fault, part)) {
    refuse("this fault would change nothing there", "a part that has what fails");
    return;
  }
  if (takes_air(action.fault->course.kind) && !installation.find_offer(Surroundings::kKind)) {
    mistakes.add(written.place,
                 {labelled(written,
                           "nothing here gives the air or the knocks that this course "
                           "waits for"),
                  written.text, "a scene with a part that gives its surroundings",
                  "choose another course, or add such a part to the scene"});
    return;
  }
  std::vector<ChangedValue> changed;
  const std::vector<ParamDecl>& params = part.kind->declaration.params;
  for (const FaultChange& c : fault.changes) {
    const std::string& name = params[c.param].name;
    changed.push_back(
        {action.part, name,
         changed_value(params[c.param], c, part.values.at(name), action.fault->severity)});
  }
  Diagnostics why;
  const auto built = rebuild(installation, changed, {}, why);
  if (built == nullptr) {
    refuse("the part cannot be so: " + why.list().front().what, why.list().front().expected);
  } else if (!can_replace(installation, *built)) {
    refuse("it would make another installation of it", "what can come about in a running one");
  }
}

void add_faults(const Draft& draft, const Registry& registry, Installation& installation,
                Mistakes& mistakes) {
  if (draft.faults.empty()) return;
  const FaultBook book(registry, mistakes);
  for (const Written& written : draft.faults) {
    for (Action& action : read_fault(written, draft, book, mistakes)) {
      action.added = written.place.file.empty();
      if (!action.clears) check_fault(action, written, installation, mistakes);
      installation.script.push_back(std::move(action));
    }
  }
  std::stable_sort(installation.script.begin(), installation.script.end(),
                   [](const Action& a, const Action& b) { return a.at < b.at; });
}

}  // namespace sixty
