#include <exception>

#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/interrupt.hpp"
#include "sim/cli/output.hpp"
#include "sim/diagnose/observation.hpp"
#include "sim/diagnose/observation_schema.hpp"
#include "sim/exhibit/exhibit.hpp"
#include "sim/exhibit/exhibit_schema.hpp"
#include "sim/lesson/lesson.hpp"
#include "sim/lesson/lesson_schema.hpp"
#include "sim/run/session.hpp"
#include "sim/scene/loader.hpp"
#include "sim/scene/yaml_document.hpp"
#include "sim/tour/tour.hpp"

namespace sixty::cli {
namespace {

struct Dispatch {
  const Registry& registry;
  int operator()(const TextWanted& wanted) const {
    print(wanted.text);
    return kOk;
  }
  int operator()(const RunArguments& a) const { return run_command(a, registry); }
  int operator()(const EventsArguments& a) const { return events_command(a, registry); }
  int operator()(const CheckArguments& a) const { return check_command(a, registry); }
  int operator()(const PartsArguments& a) const { return parts_command(a, registry); }
  int operator()(const FaultsArguments& a) const { return faults_command(a, registry); }
  int operator()(const CompareArguments& a) const { return compare_command(a, registry); }
  int operator()(const WhyArguments& a) const { return why_command(a, registry); }
  int operator()(const LessonArguments& a) const { return lesson_command(a, registry); }
  int operator()(const MeasureArguments& a) const { return measure_command(a, registry); }
  int operator()(const DiagnoseArguments& a) const { return diagnose_command(a, registry); }
  int operator()(const ObserveArguments& a) const { return observe_command(a, registry); }
  int operator()(const HuntArguments& a) const { return hunt_command(a, registry); }
  int operator()(const LearnersArguments& a) const { return learners_command(a); }
  int operator()(const SchemaArguments&) const { return schema_command(registry); }
};

int obey(std::vector<std::string> words, const Registry& registry) {
  Diagnostics mistakes;
  const Arguments arguments = parse_arguments(std::move(words), mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  return std::visit(Dispatch{registry}, arguments);
}

/// Lessons, exhibits, tours and observations are held against their scene; anything else is checked
/// by itself.
void check_any(const std::string& file, const Registry& registry, Diagnostics& mistakes) {
  Diagnostics unread;
  const std::optional<YamlNode> root = read_yaml(file, unread);
  Mistakes reading(mistakes);
  if (root && lesson::is_lesson(*root))
    lesson::check_lesson(*root, file, registry, mistakes);
  else if (root && exhibit::is_exhibit(*root))
    exhibit::check_exhibit(*root, file, registry, mistakes);
  else if (root && is_tour(*root))
    check_tour(*root, file, registry, mistakes);
  else if (root && diagnose::is_observations(*root))
    diagnose::check_observations(*root, file, registry, reading);
  else if (root && diagnose::is_signs(*root))
    diagnose::check_signs(*root, file, registry, reading);
  else
    check_file(file, registry, mistakes);
}

}  // namespace

int check_command(const CheckArguments& arguments, const Registry& registry) {
  int code = kOk;
  for (const std::string& file : arguments.files) {
    Diagnostics mistakes;
    check_any(file, registry, mistakes);
    if (mistakes.empty()) {
      print(file + ": ok\n");
    } else {
      code = refuse(mistakes);
    }
  }
  return code;
}

int schema_command(const Registry& registry) {
  print(scene_schema(registry, {diagnose::observation_schema(registry), lesson::lesson_schema(),
                                exhibit::exhibit_schema()}) +
        "\n");
  return kOk;
}

int run_program(std::vector<std::string> words, const Registry& registry) {
  int code = kRunFailed;
  try {
    code = obey(std::move(words), registry);
  } catch (const Interrupted&) {
    complain("interrupted: there is no answer yet\n");
    code = kInterrupted;
  } catch (const RunFailure& failure) {
    complain(std::string("the run failed: ") + failure.what() + "\n");
  } catch (const std::exception& error) {
    complain(std::string("the program failed, which is no fault of its input: ") + error.what() +
             "\n");
  }
  return end_output(code);
}

}  // namespace sixty::cli
