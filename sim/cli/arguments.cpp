#include "sim/cli/arguments.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <memory>

#include "sim/base/text.hpp"
#include "sim/cli/command_line.hpp"
#include "sim/cli/help.hpp"

// The only file that knows the command-line library, which takes seconds to compile.
namespace sixty::cli {
namespace {

// Everything that any command takes; the library writes into it while it parses.
struct Forms {
  RunArguments run;
  EventsArguments events;
  CheckArguments check;
  PartsArguments parts;
  FaultsArguments faults;
  CompareArguments compare;
  WhyArguments why;
  LessonArguments lesson;
  MeasureArguments measure;
  DiagnoseArguments diagnose;
  ObserveArguments observe;
  HuntArguments hunt;
  LearnersArguments learners;
};

// An option that may be given again and again, one text at a time.
void add_repeatable(CLI::App& app, const std::string& name, std::vector<std::string>& into,
                    const std::string& type, const std::string& help) {
  app.add_option(name, into, help)->type_name(type)->allow_extra_args(false);
}

void add_text(CLI::App& app, const std::string& name, std::string& into, const std::string& type,
              const std::string& help) {
  app.add_option(name, into, help)
      ->type_name(type)
      ->multi_option_policy(CLI::MultiOptionPolicy::TakeLast);  // a second one is refused later
}

void add_scene(CLI::App& app, SceneArguments& scene) {
  app.add_option("SCENE", scene.path, "Scene file (YAML)")->required()->type_name("");
  add_text(app, "--seed", scene.seed, "N", "Seed of all that is left to chance");
  add_repeatable(app, "--set", scene.set, "PART.VALUE=QUANTITY", "Change a part's value");
  add_repeatable(app, "--do", scene.action, "\"TIME PART.COMMAND [QUANTITY]\"",
                 "Let a hand act at a time");
  add_repeatable(app, "--fault", scene.fault, "ID@PART[:SEVERITY][,...]",
                 "Put a fault in; also from=TIME, until=TIME, course=COURSE");
}

void add_run(CLI::App& program, RunArguments& run) {
  CLI::App& app = *program.add_subcommand("run", "Run a scene and report");
  app.footer(kRunFooter);
  add_scene(app, run.scene);
  add_text(app, "--for", run.span, "DURATION", "How long to run (1d if nothing is said)");
  add_text(app, "--until", run.until, "TIME", "Run up to this instant instead");
  app.add_flag("--json", run.json, "Report as JSON");
  add_text(app, "--trace", run.trace, "FILE", "Write every event to a .csv, .jsonl or .vcd file");
  add_repeatable(app, "--signals", run.signals, "LIST",
                 "Readings to put into the trace: part.reading,part.*");
  add_text(app, "--sample", run.sample, "DURATION", "Also read the signals at this interval");
  app.add_flag("--no-reuse", run.no_reuse,
               "Compute every transient anew (slower; the result is the same)");
  app.get_option("--until")->excludes(app.get_option("--for"));
}

void add_events(CLI::App& program, EventsArguments& events) {
  CLI::App& app = *program.add_subcommand("events", "List what happens in a scene, and why");
  app.footer(kEventsFooter);
  add_scene(app, events.scene);
  add_text(app, "--from", events.from, "TIME", "First instant to list (the start)");
  add_text(app, "--to", events.to, "TIME", "Last instant to list (a day after the first)");
  add_repeatable(app, "--kind", events.kinds, "KIND", "Only events of this kind");
  add_repeatable(app, "--part", events.parts, "PART", "Only events of this part");
  app.add_flag("--full", events.full, "Also what changes nothing, and all conditions");
  app.add_flag("--json", events.json, "List as JSON");
}

void add_compare(CLI::App& program, CompareArguments& compare) {
  CLI::App& app =
      *program.add_subcommand("compare", "Hold a scene with faults against a sound one");
  app.footer(kCompareFooter);
  add_scene(app, compare.scene);
  add_text(app, "--for", compare.span, "DURATION", "How long to run (1d if nothing is said)");
  app.add_flag("--json", compare.json, "Answer as JSON");
}

void add_why(CLI::App& program, WhyArguments& why) {
  CLI::App& app = *program.add_subcommand("why", "Tell why something happened, or did not");
  app.footer(kWhyFooter);
  add_scene(app, why.scene);
  app.add_option("QUESTION", why.question, "\"KIND PART @ TIME\"")->required()->type_name("");
  app.add_flag("--json", why.json, "Answer as JSON");
}

void add_lesson(CLI::App& program, LessonArguments& lesson) {
  CLI::App& app = *program.add_subcommand("lesson", "Take lessons through, with right answers");
  app.footer(kLessonFooter);
  app.add_option("play", lesson.deed, "What to do with them")
      ->required()
      ->check(CLI::IsMember({"play"}))
      ->type_name("");
  app.add_option("FILE", lesson.files, "Lessons")->required()->type_name("");
  add_text(app, "--language", lesson.language, "CODE", "Of the words (en)");
}

void add_measure(CLI::App& program, MeasureArguments& measure) {
  CLI::App& app = *program.add_subcommand("measure", "Lay instruments on, and read them");
  app.footer(kMeasureFooter);
  add_scene(app, measure.scene);
  add_repeatable(app, "--meter", measure.meters, "KIND:WHERE[,...]", "What to measure, and where");
  add_text(app, "--during", measure.during, "TIME[..TIME]", "When; an instant alone: for 2 s");
  add_text(app, "--sample", measure.sample, "DURATION",
           "Interval of the recorder (2000 samples if nothing is said)");
  app.add_flag("--truth", measure.truth, "Tell too what really stood at a meter's tips");
  app.add_flag("--json", measure.json, "Answer as JSON");
}

void add_library(CLI::App& app, LibraryArguments& library) {
  add_text(app, "--watch", library.watch, "DURATION", "How long each run is watched (3d)");
  add_text(app, "--runs", library.runs, "N",
           "About how many runs (2400, or what ten minutes allow)");
  add_text(app, "--cache", library.cache, "FOLDER", "Where runs are kept to be found again");
  app.get_option("--cache")->envname("XDG_CACHE_HOME");
}

void add_diagnose(CLI::App& program, DiagnoseArguments& diagnose) {
  CLI::App& app = *program.add_subcommand(
      "diagnose", "Tell which faults explain what was noticed, and how likely each is");
  app.footer(kDiagnoseFooter);
  add_scene(app, diagnose.scene);
  CLI::Option* file =
      app.add_option("OBSERVATIONS", diagnose.observations, "What was noticed (YAML)")
          ->type_name("");
  add_text(app, "--self-test", diagnose.self_test, "N", "Try it on so many random cases instead");
  app.add_flag("--pairs", diagnose.pairs, "With two faults at once");
  app.add_flag("--left-out", diagnose.left_out, "As if the library did not know their faults");
  app.add_flag("--inverted", diagnose.inverted, "With one thing told the other way round");
  app.add_flag("--variant", diagnose.variant, "Cases from a world that is not as the model has it");
  app.add_flag("--calibration", diagnose.calibration,
               "Cases from a third one, to calibrate probabilities on");
  add_library(app, diagnose.library);
  add_text(app, "--vary", diagnose.vary, "SHARE", "How far their parts stray at the least (20 %)");
  app.add_flag("--json", diagnose.json, "Answer as JSON");
  add_text(app, "--html", diagnose.html, "FILE", "Also write it as a page that can be printed");
  app.get_option("--self-test")->excludes(file)->excludes(app.get_option("--html"));
}

void add_hunt(CLI::App& program, HuntArguments& hunt) {
  CLI::App& app = *program.add_subcommand(
      "hunt", "Hide a fault for practice, and find it as well as it can be found");
  app.footer(kHuntFooter);
  add_scene(app, hunt.scene);
  add_text(app, "--level", hunt.level, "LEVEL", "obvious, subtle, intermittent, two or hands");
  add_library(app, hunt.library);
  app.add_flag("--json", hunt.json, "Tell as JSON");
}

void add_observe(CLI::App& program, ObserveArguments& observe) {
  CLI::App& app =
      *program.add_subcommand("observe", "Write down what people would report of a fault");
  app.footer(kObserveFooter);
  add_scene(app, observe.scene);
  add_text(app, "--vary", observe.vary, "SHARE", "How far the parts stray at the least (20 %)");
  add_text(app, "--report-noise", observe.noise, "light|heavy", "How much is wrong or left out");
  add_text(app, "--out", observe.out, "FILE", "Write it to this file");
}

void add_learners(CLI::App& program, LearnersArguments& learners) {
  CLI::App& app = *program.add_subcommand("learners", "Tell what learners have done and mastered");
  app.footer(kLearnersFooter);
  add_text(app, "--data", learners.data, "FOLDER", "Where their files are, in sixtybeats/learners");
  app.get_option("--data")->envname("XDG_DATA_HOME");
  app.add_flag("--csv", learners.csv, "As comma-separated values");
  add_text(app, "--html", learners.html, "FILE", "Write it as a page that can be printed");
  add_text(app, "--forget", learners.forget, "NAME", "Delete all that is known of one");
}

void add_others(CLI::App& program, Forms& forms) {
  CLI::App& check = *program.add_subcommand("check", "Check scenes and data sheets");
  check.footer(kCheckFooter);
  check.add_option("FILE", forms.check.files, "Files to check")->required()->type_name("");
  CLI::App& parts = *program.add_subcommand("parts", "Describe the parts and their data sheets");
  parts.footer(kPartsFooter);
  parts.add_option("PART", forms.parts.part, "One part only, in full")->type_name("");
  CLI::Option* json = parts.add_flag("--json", forms.parts.json, "Describe as JSON");
  parts.add_flag("--commands", forms.parts.commands, "Only what hands can do, as a table")
      ->excludes(json);
  CLI::App& faults = *program.add_subcommand("faults", "List what can be out of order");
  faults.footer(kFaultsFooter);
  faults.add_option("SCENE", forms.faults.scene, "Only what can strike this scene's parts")
      ->type_name("");
  add_text(faults, "--about", forms.faults.about, "FAULT", "One fault in full");
  faults.add_flag("--json", forms.faults.json, "List as JSON");
  program.add_subcommand("schema", "Print the JSON Schema of scenes, data sheets and observations")
      ->footer(kSchemaFooter);
}

std::vector<std::string> command_names(const CLI::App& program) {
  std::vector<std::string> names;
  for (const CLI::App* command : program.get_subcommands(nullptr)) {
    names.push_back(command->get_name());
  }
  return names;
}

std::vector<std::string> option_names(const CLI::App& app) {
  std::vector<std::string> names;
  for (const CLI::Option* option : app.get_options()) {
    for (const std::string& name : option->get_lnames()) names.push_back("--" + name);
  }
  return names;
}

std::string mend_of(std::string_view word, const std::vector<std::string>& known,
                    const std::string& help) {
  const std::string hint = did_you_mean(word.substr(0, word.find('=')), known);
  return hint.empty() ? help : hint;
}

bool looks_like_an_option(const std::string& word) { return word.size() > 1 && word[0] == '-'; }

// Words that the library could not place. After an unknown option a stray value usually follows,
// of which nothing need be said.
void report_unknown_words(const CLI::App& app, const std::string& help, Diagnostics& mistakes) {
  const std::vector<std::string> words = app.remaining(false);
  const std::vector<std::string> options = option_names(app);
  const bool any_option = std::any_of(words.begin(), words.end(), looks_like_an_option);
  for (const std::string& word : words) {
    if (looks_like_an_option(word)) {
      add_mistake(mistakes, "unknown option", word, listed(options), mend_of(word, options, help));
    } else if (!any_option) {
      add_mistake(mistakes, "one word too many", word, "",
                  "put quotes around a text that has spaces");
    }
  }
}

std::string shown_name(const CLI::Option& option) {
  const std::vector<std::string>& names = option.get_lnames();
  return names.empty() ? option.get_name() : "--" + names.front();
}

// A text of nothing, as a shell makes it of a variable that is not set, is not the same as none.
void report_empty_words(const CLI::App& command, Diagnostics& mistakes) {
  for (const CLI::Option* option : command.get_options()) {
    const std::vector<std::string>& given = option->results();
    if (std::find(given.begin(), given.end(), "") == given.end()) continue;
    const std::string name = shown_name(*option);
    const bool needed = option->get_required();
    add_mistake(mistakes, name + ": the text given is empty", "\"\"",
                name + (option->get_type_name().empty() ? "" : " " + option->get_type_name()),
                needed ? "give one" : "give one, or leave " + name + " out");
  }
}

void report_repeated_words(const CLI::App& command, Diagnostics& mistakes) {
  for (const CLI::Option* option : command.get_options()) {
    if (option->get_multi_option_policy() != CLI::MultiOptionPolicy::TakeLast) continue;
    const std::vector<std::string>& given = option->results();
    if (given.size() < 2) continue;
    add_mistake(mistakes, shown_name(*option) + ": given more than once", listed(given),
                "one " + option->get_type_name(), "leave all but one out");
  }
}

void report_no_command(const CLI::App& program, const std::string& help, Diagnostics& mistakes) {
  const std::vector<std::string> names = command_names(program);
  const std::vector<std::string> words = program.remaining(false);
  if (words.empty()) {
    add_mistake(mistakes, "no command is given", "", listed(names), help);
  } else if (looks_like_an_option(words[0])) {
    report_unknown_words(program, help, mistakes);
  } else {
    add_mistake(mistakes, "unknown command", words[0], listed(names),
                mend_of(words[0], names, help));
  }
}

const CLI::App* chosen_command(const CLI::App& program) {
  const std::vector<CLI::App*> chosen = program.get_subcommands();
  return chosen.empty() ? nullptr : chosen[0];
}

std::string help_hint(const CLI::App& program) {
  const CLI::App* command = chosen_command(program);
  return "see sixtybeats " + (command == nullptr ? "" : command->get_name() + " ") + "--help";
}

Arguments arguments_of(const std::string& command, Forms& forms) {
  if (command == "run") return std::move(forms.run);
  if (command == "events") return std::move(forms.events);
  if (command == "check") return std::move(forms.check);
  if (command == "parts") return std::move(forms.parts);
  if (command == "compare") return std::move(forms.compare);
  if (command == "why") return std::move(forms.why);
  if (command == "lesson") return std::move(forms.lesson);
  if (command == "measure") return std::move(forms.measure);
  if (command == "faults") return std::move(forms.faults);
  if (command == "diagnose") return std::move(forms.diagnose);
  if (command == "observe") return std::move(forms.observe);
  if (command == "hunt") return std::move(forms.hunt);
  if (command == "learners") return std::move(forms.learners);
  return SchemaArguments{};
}

void allow_unknown_words(CLI::App& program) {
  program.allow_extras();
  for (CLI::App* command : program.get_subcommands(nullptr)) command->allow_extras();
}

void name_groups(CLI::App& program) {
  for (CLI::App* command : program.get_subcommands(nullptr)) command->group("Commands");
}

void set_up(CLI::App& program, Forms& forms) {
  program.name("sixtybeats");
  program.set_version_flag("--version", std::string("sixtybeats ") + SIXTY_VERSION);
  program.footer(kProgramFooter);
  program.require_subcommand(0, 1);
  program.get_formatter()->column_width(38);
  program.get_formatter()->label("SUBCOMMAND", "COMMAND");
  add_run(program, forms.run);
  add_events(program, forms.events);
  add_compare(program, forms.compare);
  add_why(program, forms.why);
  add_lesson(program, forms.lesson);
  add_measure(program, forms.measure);
  add_diagnose(program, forms.diagnose);
  add_observe(program, forms.observe);
  add_hunt(program, forms.hunt);
  add_learners(program, forms.learners);
  add_others(program, forms);
  allow_unknown_words(program);
  name_groups(program);
}

// What the library says when it gives up at the first word that is wrong or missing.
void report_refusal(const CLI::App& program, const CLI::ParseError& error, Diagnostics& mistakes) {
  if (const CLI::App* command = chosen_command(program)) {
    report_unknown_words(*command, help_hint(program), mistakes);
  }
  if (mistakes.empty()) add_mistake(mistakes, error.what(), "", "", help_hint(program));
}

}  // namespace

Arguments parse_arguments(std::vector<std::string> words, Diagnostics& mistakes) {
  Forms forms;
  CLI::App program{kProgramHelp};
  set_up(program, forms);
  std::reverse(words.begin(), words.end());  // the library takes them from the back
  try {
    program.parse(std::move(words));
  } catch (const CLI::CallForHelp&) {
    return TextWanted{program.help()};
  } catch (const CLI::CallForVersion& version) {
    return TextWanted{std::string(version.what()) + "\n"};
  } catch (const CLI::ParseError& error) {
    report_refusal(program, error, mistakes);
    return {};
  }
  const CLI::App* command = chosen_command(program);
  if (command == nullptr) {
    report_no_command(program, help_hint(program), mistakes);
    return {};
  }
  report_unknown_words(program, "give options after the command", mistakes);
  report_unknown_words(*command, help_hint(program), mistakes);
  report_empty_words(*command, mistakes);
  report_repeated_words(*command, mistakes);
  return arguments_of(command->get_name(), forms);
}

}  // namespace sixty::cli
