#include <fmt/format.h>

#include <filesystem>
#include <utility>

#include "sim/base/file.hpp"
#include "sim/base/text.hpp"
#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/layout.hpp"
#include "sim/cli/output.hpp"
#include "sim/practice/progress.hpp"

namespace sixty::cli {
namespace {

using practice::Learners;
using practice::Progress;

/// Looking at them changes no file.
std::vector<Progress> all_of(const Learners& learners, bool& all_read) {
  std::vector<Progress> all;
  for (const std::string& name : learners.names()) {
    std::string told;
    if (auto known = learners.read(name, told, false)) all.push_back(std::move(*known));
    if (told.empty()) continue;
    complain(told + "\n");
    all_read = false;
  }
  return all;
}

std::string table_of(const std::vector<Progress>& all) {
  if (all.empty()) return "Nobody has done anything yet.\n";
  TextTable table({{"learner"}, {"topic"}, {"steps", true}, {"mastered", true}});
  for (const Progress& progress : all) {
    for (const auto& [topic, mastery] : practice::mastery_of(progress))
      table.add({progress.learner, topic, std::to_string(mastery.steps),
                 fmt::format("{:.0f} %", 100 * mastery.share)});
    for (const practice::HuntTaken& hunt : progress.hunts)
      table.add({progress.learner, fmt::format("hunt {} {} {}", hunt.scene, hunt.level, hunt.seed),
                 "",
                 hunt.proved   ? "proved"
                 : hunt.mended ? "mended"
                               : "not found"});
  }
  return table.text(0);
}

/// A folder that is named is there, or nobody's progress would look like everybody's.
bool is_there(const std::string& folder) {
  std::error_code error;
  if (folder.empty() || std::filesystem::is_directory(folder, error)) return true;
  Diagnostics mistakes;
  mistakes.add({"", 0, 0, "--data: this is no folder", printable(folder),
                "the folder in which learners' files lie", "look for it, or leave --data out"});
  refuse(mistakes);
  return false;
}

int forget(const Learners& learners, const std::string& name) {
  std::string error;
  if (learners.forget(name, error)) return kOk;
  Diagnostics mistakes;
  add_unknown(mistakes, "--forget: " + error, name, learners.names());
  return refuse(mistakes);
}

}  // namespace

int learners_command(const LearnersArguments& arguments) {
  if (!is_there(arguments.data)) return kBadInput;
  const Learners learners(practice::learners_folder(arguments.data));
  if (!arguments.forget.empty()) return forget(learners, arguments.forget);
  bool all_read = true;
  const std::vector<Progress> all = all_of(learners, all_read);
  if (arguments.html.empty()) {
    print(arguments.csv ? practice::progress_csv(all) : table_of(all));
    return all_read ? kOk : kBadInput;
  }
  std::string error;
  if (write_file_whole(arguments.html, practice::progress_html(all), error))
    return all_read ? kOk : kBadInput;
  complain("could not write " + arguments.html + ": " + error + "\n");
  return kCouldNotWrite;
}

}  // namespace sixty::cli
