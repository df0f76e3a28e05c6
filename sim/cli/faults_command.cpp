#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/faults_view.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/scene_input.hpp"

namespace sixty::cli {
namespace {

std::vector<std::string> struck_parts(const Fault& fault, const Installation& scene) {
  std::vector<std::string> names;
  for (const PartInstance& part : scene.parts) {
    if (fits(fault, part)) names.push_back(part.name);
  }
  return names;
}

std::vector<FaultLine> lines_of(const FaultBook& book, const Installation* scene) {
  std::vector<FaultLine> lines;
  for (const auto& fault : book.all()) {
    FaultLine line{fault, {}};
    if (scene != nullptr) line.parts = struck_parts(*fault, *scene);
    if (scene == nullptr || !line.parts.empty()) lines.push_back(std::move(line));
  }
  return lines;
}

std::vector<FaultLine> lines_about(const std::string& id, std::vector<FaultLine> lines,
                                   Diagnostics& mistakes) {
  if (id.empty()) return lines;
  std::vector<FaultLine> found;
  std::vector<std::string> names;
  for (FaultLine& line : lines) {
    names.push_back(line.fault->name);
    if (goes_by(*line.fault, id)) found.push_back(std::move(line));
  }
  if (found.empty()) add_unknown(mistakes, "--about: there is no such fault", id, names);
  return found;
}

}  // namespace

int faults_command(const FaultsArguments& arguments, const Registry& registry) {
  Diagnostics mistakes;
  Mistakes reading(mistakes);
  const FaultBook book(registry, reading);
  std::shared_ptr<const Installation> scene;
  const bool with_parts = !arguments.scene.empty();
  if (with_parts) {
    SceneArguments of;
    of.path = arguments.scene;
    scene = load(of, registry, mistakes);
  }
  if (!mistakes.empty()) return refuse(mistakes);
  const std::vector<FaultLine> lines =
      lines_about(arguments.about, lines_of(book, scene.get()), mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  if (arguments.json) {
    print(faults_json(lines, with_parts));
  } else if (arguments.about.empty()) {
    print(faults_text(lines, with_parts));
  } else {
    for (const FaultLine& line : lines) print(fault_text(line, with_parts));
  }
  return kOk;
}

}  // namespace sixty::cli
