#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/event_lines.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/progress.hpp"
#include "sim/cli/record_json.hpp"
#include "sim/cli/record_text.hpp"
#include "sim/cli/runner.hpp"
#include "sim/cli/scene_input.hpp"

namespace sixty::cli {
namespace {

// Name and version of the form of `events --json`.
constexpr const char* kEventsFormat = "sixtybeats-events/1";
constexpr SimTime kListedSpan = kDay;

// Which events are wanted.
struct Wanted {
  SimTime from = 0, to = 0;
  std::vector<std::string> kinds;
  std::vector<PartId> parts;

  bool has(const TraceRecord& record) const {
    return record.event.at >= from && record.event.at <= to &&
           (kinds.empty() || std::find(kinds.begin(), kinds.end(), record.kind) != kinds.end()) &&
           (parts.empty() || std::find(parts.begin(), parts.end(), record.part) != parts.end());
  }
};

// Prints events while they happen.
class Lister final : public TraceSink {
 public:
  Lister(const EventsArguments& arguments, const Installation& installation, Wanted wanted)
      : json_(arguments.json),
        full_(arguments.full),
        installation_(installation),
        wanted_(std::move(wanted)),
        book_(installation) {
    if (json_) print(head());
  }
  bool full() const override { return full_; }
  void record(const TraceRecord& record) override {
    book_.enter(record);
    if (!wanted_.has(record)) return;
    ++listed_;
    if (json_) {
      print((listed_ == 1 ? "\n    " : ",\n    ") + event_object(record, book_, installation_));
    } else {
      print(event_lines(record, book_));
    }
  }
  void end() {
    if (json_) print(listed_ == 0 ? "]\n}\n" : "\n  ]\n}\n");
  }
  bool listed_any() const { return listed_ > 0; }
  const CauseBook& book() const { return book_; }

 private:
  std::string head() const {
    return fmt::format(
        "{{\n  \"format\": \"{}\",\n  \"scene\": {},\n  \"seed\": {},\n  \"start\": {},\n"
        "  \"events\": [",
        kEventsFormat, json_text(installation_.name), installation_.seed,
        json_text(start_text(installation_)));
  }

  bool json_, full_;
  const Installation& installation_;
  Wanted wanted_;
  CauseBook book_;
  std::uint64_t listed_ = 0;
};

Wanted wanted_of(const EventsArguments& arguments, const Installation& installation,
                 Diagnostics& mistakes) {
  Wanted wanted;
  const CivilClock& clock = clock_of(installation);
  wanted.from = time_of("--from", arguments.from, clock, 0, mistakes).value_or(0);
  wanted.to = time_of("--to", arguments.to, clock, wanted.from, mistakes)
                  .value_or(wanted.from + std::min(kListedSpan, kNever - 1 - wanted.from));
  if (mistakes.empty() && wanted.to < wanted.from) {
    add_mistake(mistakes, "--to: this is before --from", arguments.to, "a later instant",
                "put the earlier of the two behind --from");
  }
  for (const std::string& part : arguments.parts) {
    wanted.parts.push_back(find_part("--part", part, installation, mistakes));
  }
  if (mistakes.empty()) check_actions(installation, wanted.to, mistakes);
  wanted.kinds = arguments.kinds;
  return wanted;
}

template <class Decl>
void add_names(const std::vector<Decl>& declared, std::set<std::string>& names) {
  for (const Decl& d : declared) names.insert(d.name);
}

// Kinds that the scene's parts declare; kinds of what magnets and contacts do are known once seen.
std::set<std::string> declared_kinds(const Installation& installation) {
  std::set<std::string> kinds;
  for (const PartInstance& part : installation.parts) {
    const Declaration& declaration = part.kind->declaration;
    for (const EventDecl& event : declaration.events) kinds.insert(event.name);
    add_names(declaration.inputs, kinds);
    add_names(declaration.commands, kinds);
  }
  return kinds;
}

// That nothing happened is an answer; that there is no such thing is a mistake.
void check_kinds(const EventsArguments& arguments, const Installation& installation,
                 const CauseBook& book, Diagnostics& mistakes) {
  std::set<std::string> known = declared_kinds(installation);
  for (const std::string& kind : book.kinds()) known.insert(kind);
  for (const std::string& kind : arguments.kinds) {
    if (known.count(kind) != 0) continue;
    add_unknown(mistakes, "--kind: there is no such kind of event here", kind,
                {known.begin(), known.end()});
  }
}

int list(const EventsArguments& arguments, const std::shared_ptr<const Installation>& installation,
         Wanted wanted) {
  RunPlan plan;
  plan.until = wanted.to;
  plan.progress = can_show_progress();
  Lister lister(arguments, *installation, std::move(wanted));
  plan.sink = &lister;
  Session session(installation);
  const RunEnd end = run_session(session, plan);
  lister.end();
  Diagnostics mistakes;
  if (end == RunEnd::kDone) check_kinds(arguments, *installation, lister.book(), mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  if (!lister.listed_any() && !arguments.json) complain("no such events\n");
  return end == RunEnd::kInterrupted ? kInterrupted : kOk;
}

}  // namespace

int events_command(const EventsArguments& arguments, const Registry& registry) {
  Diagnostics mistakes;
  const auto installation = load(arguments.scene, registry, mistakes);
  Wanted wanted;
  if (installation) wanted = wanted_of(arguments, *installation, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  return list(arguments, installation, std::move(wanted));
}

}  // namespace sixty::cli
