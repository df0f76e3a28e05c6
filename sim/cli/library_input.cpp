#include "sim/cli/library_input.hpp"

#include <utility>

#include "sim/cli/command_line.hpp"
#include "sim/cli/counted.hpp"
#include "sim/cli/diagnose_view.hpp"
#include "sim/cli/interrupt.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/scene_input.hpp"
#include "sim/diagnose/shelf.hpp"
#include "sim/diagnose/urgency.hpp"

namespace sixty::cli {
namespace {

/// `early`: what was noticed, of which something is told before all is known; none: nothing.
void fill(diagnose::Library& library, const diagnose::LibraryPlan& plan, const Registry& registry,
          const std::vector<diagnose::Observation>& early) {
  diagnose::find_usual(library, plan, registry);
  Counted counted("simulating what may be the matter");
  diagnose::Early tell;
  if (!early.empty()) {
    tell.urgency = diagnose::urgency_of(library, early);
    tell.told = [&, is_told = false](const diagnose::Library& so_far) mutable {
      if (std::exchange(is_told, true)) return;
      counted.clear();
      print_now(provisional_text(so_far, early));
    };
  }
  const auto told = [&](std::size_t done, std::size_t all) {
    counted.show(done, all);
    end_if_interrupted();
  };
  diagnose::fill_library(library, plan, told, tell);
}

}  // namespace

diagnose::LibraryPlan plan_of(const SceneArguments& scene, const LibraryArguments& library,
                              Diagnostics& mistakes) {
  diagnose::LibraryPlan plan;
  plan.path = scene.path;
  plan.changes = changes_of(scene, mistakes);
  plan.until = duration_of("--watch", library.watch, mistakes).value_or(plan.until);
  plan.runs = count_of("--runs", library.runs, 100, 100'000, mistakes).value_or(plan.runs);
  if (Diagnostic mistake; mistakes.empty() && !diagnose::can_be_watched(plan.until, mistake))
    add_mistake(mistakes, "--watch: " + mistake.what, library.watch, mistake.expected,
                mistake.mend);
  return plan;
}

bool fill_or_find(diagnose::Library& library, const diagnose::LibraryPlan& plan,
                  const std::string& cache, const Registry& registry,
                  const std::vector<diagnose::Observation>& early) {
  const diagnose::Shelf shelf(cache);
  if (shelf.find(library, plan)) return true;
  fill(library, plan, registry, early);
  std::string error;
  if (!shelf.keep(library, plan, error)) complain("the library could not be kept: " + error + "\n");
  return false;
}

}  // namespace sixty::cli
