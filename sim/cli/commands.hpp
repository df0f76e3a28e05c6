#pragma once

#include "sim/cli/arguments.hpp"
#include "sim/part/registry.hpp"

/// What the program does, one function to each command. All of them return the exit code.
namespace sixty::cli {

int run_command(const RunArguments& arguments, const Registry& registry);
int events_command(const EventsArguments& arguments, const Registry& registry);
int check_command(const CheckArguments& arguments, const Registry& registry);
int parts_command(const PartsArguments& arguments, const Registry& registry);
int faults_command(const FaultsArguments& arguments, const Registry& registry);
int compare_command(const CompareArguments& arguments, const Registry& registry);
int why_command(const WhyArguments& arguments, const Registry& registry);
int hunt_command(const HuntArguments& arguments, const Registry& registry);
int learners_command(const LearnersArguments& arguments);
int lesson_command(const LessonArguments& arguments, const Registry& registry);
int measure_command(const MeasureArguments& arguments, const Registry& registry);
int diagnose_command(const DiagnoseArguments& arguments, const Registry& registry);
int observe_command(const ObserveArguments& arguments, const Registry& registry);
int schema_command(const Registry& registry);

/// The whole program. `words`: the command line without the program's name.
int run_program(std::vector<std::string> words, const Registry& registry);

}  // namespace sixty::cli
