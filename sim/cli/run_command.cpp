#include <fmt/format.h>

#include <memory>

#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/progress.hpp"
#include "sim/cli/record_text.hpp"
#include "sim/cli/report_json.hpp"
#include "sim/cli/report_text.hpp"
#include "sim/cli/runner.hpp"
#include "sim/cli/scene_input.hpp"
#include "sim/cli/stopwatch.hpp"

namespace sixty::cli {
namespace {

constexpr SimTime kStandardSpan = kDay;
constexpr SimTime kMostSamples = 10'000'000;  // a gigabyte or so

// A run with everything checked that can be wrong with it beforehand.
struct PreparedRun {
  std::shared_ptr<const Installation> installation;
  std::vector<Signal> signals;
  RunPlan plan;
};

// Without a scene, whose mistakes will be shown, only the form of the text can be checked.
SimTime end_of(const RunArguments& arguments, const Installation* installation,
               Diagnostics& mistakes) {
  if (!arguments.until.empty()) {
    const CivilClock clock = installation == nullptr ? CivilClock{} : clock_of(*installation);
    return time_of("--until", arguments.until, clock, 0, mistakes).value_or(0);
  }
  return duration_of("--for", arguments.span, mistakes).value_or(kStandardSpan);
}

std::string all_endings() {
  std::string text;
  for (const std::string& ending : trace_endings()) {
    text += (text.empty() ? "FILE" : ", FILE") + ending;
  }
  return text;
}

// What --trace, --signals and --sample need of each other.
void check_trace(const RunArguments& arguments, Diagnostics& mistakes) {
  if (!arguments.trace.empty() && !has_trace_ending(arguments.trace)) {
    add_mistake(mistakes, "--trace: the ending of the name tells the form, and this is none",
                arguments.trace, all_endings(), "choose one of these endings");
  }
  if (arguments.trace.empty() && !arguments.signals.empty()) {
    add_mistake(mistakes, "--signals: there is no trace to put them into", "", all_endings(),
                "add --trace FILE");
  }
  if (arguments.signals.empty() && !arguments.sample.empty()) {
    add_mistake(mistakes, "--sample: no signals are given that could be read", "",
                "--signals PART.READING", "add --trace FILE --signals LIST");
  }
}

SimTime sample_interval(const RunArguments& arguments, Diagnostics& mistakes) {
  const std::size_t before = mistakes.list().size();
  const std::optional<SimTime> interval = duration_of("--sample", arguments.sample, mistakes);
  if (interval == 0 && mistakes.list().size() == before) {
    add_mistake(mistakes, "--sample: an interval of nothing never comes to an end",
                arguments.sample, "at least 1ns", "give a longer one, such as 50us");
  }
  return interval.value_or(0);
}

// The next of 1, 2 and 5 with zeros, for people to write.
SimTime rounded_up(SimTime ns) {
  SimTime power = 1;
  while (power <= ns / 10) power *= 10;
  for (const SimTime factor : {1, 2, 5}) {
    if (factor * power >= ns) return factor * power;
  }
  return 10 * power;
}

// A disk that fills up ends a run after hours; the size can be told beforehand.
void check_samples(const RunArguments& arguments, const RunPlan& plan, Diagnostics& mistakes) {
  if (plan.sample == 0 || plan.until / plan.sample < kMostSamples) return;
  const SimTime longest = plan.sample > kNever / kMostSamples ? kNever : plan.sample * kMostSamples;
  const SimTime shortest = plan.until / kMostSamples + 1;
  add_mistake(mistakes, "--sample: these would be too many samples",
              fmt::format("{} in a run of {}: {} samples", arguments.sample,
                          format_duration(plan.until), plan.until / plan.sample + 1),
              fmt::format("at most {} samples", kMostSamples),
              fmt::format("run for less than {}, or sample every {} or more rarely; events are in "
                          "the trace without --sample",
                          format_duration(longest), format_duration(rounded_up(shortest))));
}

PreparedRun prepare(const RunArguments& arguments, const Registry& registry,
                    Diagnostics& mistakes) {
  PreparedRun run;
  check_trace(arguments, mistakes);
  run.plan.sample = sample_interval(arguments, mistakes);
  run.installation = load(arguments.scene, registry, mistakes);
  run.plan.until = end_of(arguments, run.installation.get(), mistakes);
  if (run.installation) {
    run.signals = find_signals(arguments.signals, *run.installation, mistakes);
    check_actions(*run.installation, run.plan.until, mistakes);
  }
  check_samples(arguments, run.plan, mistakes);
  return run;
}

int could_not_write(const std::string& error) {
  complain(error + "\n");
  return kCouldNotWrite;
}

// The trace of a run that failed shows why, so it is kept too.
RunEnd run_and_keep_trace(Session& session, const RunPlan& plan) {
  try {
    return run_session(session, plan);
  } catch (const RunFailure&) {
    std::string error;
    if (plan.writer != nullptr && !plan.writer->finish(session.now(), error))
      could_not_write(error);
    throw;
  }
}

RunFacts facts_of(const Session& session, const PreparedRun& run, RunEnd end,
                  const Stopwatch& watch) {
  RunFacts facts;
  facts.installation = run.installation;
  facts.simulated = session.now();
  facts.wall_s = watch.seconds();
  facts.events = session.events();
  facts.interrupted = end == RunEnd::kInterrupted;
  return facts;
}

int run_prepared(const RunArguments& arguments, const PreparedRun& run) {
  const Stopwatch watch;
  std::unique_ptr<TraceWriter> writer;
  Session::Options options;
  options.reuse_transients = !arguments.no_reuse;
  Session* running = nullptr;
  std::string error;
  writer = make_trace_writer(arguments.trace,
                             {run.installation, run.signals, [&running](const Signal& signal) {
                                return running->read(signal.part, signal.reading);
                              }});
  if (writer != nullptr && !writer->open(arguments.trace, error)) return could_not_write(error);
  Session session(run.installation, options);
  running = &session;
  RunPlan plan = run.plan;
  plan.writer = writer.get();
  plan.sink = writer.get();
  plan.progress = can_show_progress();
  const RunEnd end = run_and_keep_trace(session, plan);
  if (writer != nullptr && !writer->finish(session.now(), error)) return could_not_write(error);
  const Report report = session.report();
  const RunFacts facts = facts_of(session, run, end, watch);
  print(arguments.json ? report_json(report, facts) : report_text(report, facts));
  return end == RunEnd::kInterrupted ? kInterrupted : kOk;
}

}  // namespace

int run_command(const RunArguments& arguments, const Registry& registry) {
  Diagnostics mistakes;
  const PreparedRun run = prepare(arguments, registry, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  return run_prepared(arguments, run);
}

}  // namespace sixty::cli
