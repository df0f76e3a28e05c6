#include "sim/cli/command_line.hpp"
#include "sim/cli/commands.hpp"
#include "sim/cli/exit_code.hpp"
#include "sim/cli/output.hpp"
#include "sim/cli/parts_view.hpp"

namespace sixty::cli {
namespace {

std::vector<const Registry::Entry*> wanted_parts(const std::string& name, const Registry& registry,
                                                 Diagnostics& mistakes) {
  std::vector<const Registry::Entry*> parts;
  std::vector<std::string> names;
  for (const auto& [key, entry] : registry.entries()) {
    names.push_back(key);
    if (name.empty() || name == key) parts.push_back(&entry);
  }
  if (parts.empty()) add_unknown(mistakes, "there is no such part type", name, names);
  return parts;
}

}  // namespace

int parts_command(const PartsArguments& arguments, const Registry& registry) {
  Diagnostics mistakes;
  const auto parts = wanted_parts(arguments.part, registry, mistakes);
  if (!mistakes.empty()) return refuse(mistakes);
  if (arguments.commands) {
    print(commands_list(parts));
  } else if (arguments.json) {
    print(parts_json(parts));
  } else {
    print(arguments.part.empty() ? parts_list(registry) : part_text(*parts.front()));
  }
  return kOk;
}

}  // namespace sixty::cli
