#include "sim/base/file.hpp"
#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/counted.hpp"
#include "sim/cli/diagnose_view.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/interrupt.hpp"
#include "sim/cli/library_input.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/scene_input.hpp"
#include "sim/cli/stopwatch.hpp"
#include "sim/diagnose/page.hpp"
#include "sim/diagnose/shelf.hpp"

namespace sixty::cli {
namespace {

constexpr std::size_t kMostProposals = 5, kMostQuestions = 3;

std::vector<diagnose::Observation> observed(const std::string& path,
                                            const diagnose::Library& library,
                                            Diagnostics& mistakes) {
  Mistakes reading(mistakes);
  const auto root = read_yaml(path, mistakes);
  if (!root) return {};
  return diagnose::read_observations(*root, path, *library.installation, library.signs,
                                     library.watch, reading);
}

/// Other assumptions are for cases alone, and one set of them at a time.
void check_world(const DiagnoseArguments& arguments, Diagnostics& mistakes) {
  const char* world = arguments.variant ? "--variant" : "--calibration";
  if ((arguments.variant || arguments.calibration) && arguments.self_test.empty()) {
    add_mistake(mistakes, std::string(world) + ": says what the cases of a self-test are like",
                world, "--self-test N beside it",
                "add --self-test 100, or leave " + std::string(world) + " out");
  }
  if (arguments.variant && arguments.calibration) {
    add_mistake(mistakes, "--variant and --calibration: two worlds at once",
                "--variant --calibration", "one of them", "leave one of the two out");
  }
}

/// Of the cases; the library is built under the model's own.
const Assumptions& assumptions_of(const DiagnoseArguments& arguments) {
  if (arguments.variant) return variant_assumptions();
  return arguments.calibration ? calibration_assumptions() : own_assumptions();
}

int answer_self_test(const DiagnoseArguments& arguments, diagnose::Library& library,
                     const diagnose::LibraryPlan& plan, const Registry& registry,
                     const diagnose::CheckBook& checks) {
  Diagnostics mistakes;
  diagnose::TrialPlan trial;
  trial.cases = count_of("--self-test", arguments.self_test, 1, 100'000, mistakes).value_or(100);
  trial.seed = count_of("--seed", arguments.scene.seed, 0, 1'000'000'000, mistakes).value_or(1);
  trial.assumptions = assumptions_of(arguments);
  if (!arguments.vary.empty()) trial.vary = share_of("--vary", arguments.vary, mistakes);
  trial.pairs = arguments.pairs;
  if (!mistakes.empty()) return refuse(mistakes);
  fill_or_find(library, plan, arguments.library.cache, registry, {});
  Counted counted("trying cases");
  const diagnose::OnProgress told = [&](std::size_t tried, std::size_t all) {
    counted.show(tried, all);
    end_if_interrupted();
  };
  const auto trials = diagnose::trials_of(library, plan, trial, registry, told);
  diagnose::SelfTestPlan test;
  test.seed = trial.seed;
  test.left_out = arguments.left_out;
  test.inverted = arguments.inverted;
  const diagnose::SelfTest done = diagnose::self_test(library, trials, test, checks, told);
  counted.clear();
  print(arguments.json ? self_test_json(done, library, trial)
                       : self_test_text(done, library, trial));
  return kOk;
}

int write_page(const std::string& path, const Diagnosis& d) {
  std::string error;
  const std::string page =
      diagnose::page_html({d.library, d.observations, d.ranking, d.questions, d.next});
  if (write_file_whole(path, page, error)) return kOk;
  complain("could not write " + path + ": " + error + "\n");
  return kCouldNotWrite;
}

}  // namespace

int diagnose_command(const DiagnoseArguments& arguments, const Registry& registry) {
  Diagnostics mistakes;
  Mistakes reading(mistakes);
  const diagnose::Books books(registry, reading);
  diagnose::LibraryPlan plan = plan_of(arguments.scene, arguments.library, mistakes);
  if (!arguments.self_test.empty()) plan.changes.seed = std::nullopt;  // it chooses the cases
  check_world(arguments, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  const Stopwatch watch;
  const auto library = diagnose::open_library(plan, registry, books.signs, books.faults, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  if (!arguments.self_test.empty())
    return answer_self_test(arguments, *library, plan, registry, books.checks);
  const auto observations = observed(arguments.observations, *library, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  if (!diagnose::is_any_looked_at(observations)) {
    add_mistake(mistakes, "nothing was looked at", arguments.observations,
                "at least one observation with an answer", "write down what was noticed");
    return refuse(mistakes);
  }
  const bool reused =
      fill_or_find(*library, plan, arguments.library.cache, registry,
                   arguments.json ? std::vector<diagnose::Observation>() : observations);
  Diagnosis diagnosis{*library, observations, diagnose::rank(*library, observations, {})};
  diagnosis.next = diagnose::next_checks(*library, diagnosis.ranking, observations, books.checks,
                                         kMostProposals);
  diagnosis.questions = diagnose::next_questions(*library, diagnosis.ranking, observations,
                                                 books.checks, kMostQuestions);
  diagnosis.facts = {library->simulations, watch.seconds(), reused};
  print(arguments.json ? diagnosis_json(diagnosis) : diagnosis_text(diagnosis));
  return arguments.html.empty() ? kOk : write_page(arguments.html, diagnosis);
}

}  // namespace sixty::cli
