#include "sim/scene/loader.hpp"

#include <algorithm>
#include <filesystem>
#include <utility>

#include "sim/base/hash.hpp"
#include "sim/circuit/rework.hpp"
#include "sim/scene/blueprint.hpp"
#include "sim/scene/changes.hpp"
#include "sim/scene/hookup.hpp"
#include "sim/scene/injection.hpp"
#include "sim/scene/network_check.hpp"
#include "sim/scene/part_builder.hpp"
#include "sim/scene/part_reader.hpp"
#include "sim/scene/scene_reader.hpp"
#include "sim/scene/script.hpp"
#include "sim/scene/tree_reader.hpp"
#include "sim/scene/wiring.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty {
namespace {

void start_installation(const std::string& name, const Draft& draft,
                        const std::vector<SettledPart>& settled, Installation& installation) {
  installation.name = name;
  installation.title = draft.title;
  installation.clock = draft.clock;
  installation.week_offset =
      (iso_weekday(draft.clock.start) - 1) * kDay + draft.clock.start.ns_of_day;
  installation.year_offset =
      (day_of_year(draft.clock.start) - 1) * kDay + draft.clock.start.ns_of_day;
  const std::uint64_t week = draft.specimen ? draft.specimen->week : 0;
  installation.seed = week == 0 ? draft.seed : mix(draft.seed, week);
  installation.assumptions = draft.assumptions;
  installation.rooms = draft.plan.rooms;
  installation.lines = draft.lines;
  // The parts stay where they are from here on: builders hand out addresses of their riders.
  installation.parts.resize(draft.parts.size());
  for (std::size_t i = 0; i < draft.parts.size(); ++i) {
    PartInstance& part = installation.parts[i];
    part.name = draft.parts[i].name;
    part.room = draft.parts[i].room;
    part.notes = draft.parts[i].notes;
    part.kind = draft.parts[i].kind;
    part.sheet = draft.parts[i].sheet;
    part.path_hash = hash_text(part.name);
    part.values = settled[i].values;
  }
}

std::vector<SettledPart> settle_all(const std::string& path, const Draft& draft,
                                    const Registry& registry, Mistakes& mistakes) {
  SheetShelf shelf(registry, path, mistakes);
  std::vector<SettledPart> settled(draft.parts.size());
  for (std::size_t i = 0; i < draft.parts.size(); ++i) {
    if (draft.parts[i].kind == nullptr) continue;
    settled[i] = settle_values(draft.parts[i], draft, shelf, mistakes);
  }
  return settled;
}

/// Wires may not lead to terminals behind which nothing is, as the fifth finger of four columns.
void refuse_wires_to(const std::vector<std::string>& idle, const Draft& draft, Mistakes& mistakes) {
  for (const DraftNet& net : draft.nets) {
    for (const Written& terminal : net.terminals) {
      if (std::find(idle.begin(), idle.end(), terminal.text) == idle.end()) continue;
      mistakes.add(terminal.place,
                   {terminal.label + ": with the values that the part has, nothing is behind this",
                    terminal.text, "a terminal that the part uses",
                    "raise the number that the part is given, or leave this wire out"});
    }
  }
}

void build_parts(const Draft& draft, const std::vector<SettledPart>& settled,
                 const LinkSources& links, Installation& installation, circuit::Network& network,
                 Mistakes& mistakes) {
  place_links(installation);
  bool all = true;
  for (PartId id = 0; id < draft.parts.size(); ++id) {
    const bool sound = draft.parts[id].kind != nullptr && settled[id].sound;
    all = all && sound;
    if (!sound) continue;
    const std::vector<std::string> idle =
        make_part(id, draft.parts[id], settled[id], links, installation, network, mistakes);
    refuse_wires_to(idle, draft, mistakes);
  }
  // With parts left out, joints would seem bare that are not.
  if (all) check_network(network, draft, installation, mistakes);
}

/// Parts, wires and links as drafted, with values as settled and meters laid on.
std::shared_ptr<Installation> assemble(const std::string& name, const Draft& draft,
                                       const std::vector<SettledPart>& settled,
                                       const Hookups& hookups, Mistakes& mistakes) {
  auto installation = std::make_shared<Installation>();
  start_installation(name, draft, settled, *installation);
  auto network = std::make_shared<circuit::Network>();
  network->node_count = assign_nodes(draft, *installation, mistakes);
  lay_on(hookups, *installation, *network);
  const LinkSources links = connect_parts(draft, *installation, mistakes);
  build_parts(draft, settled, links, *installation, *network, mistakes);
  installation->network = std::move(network);
  return installation;
}

std::shared_ptr<const Installation> build_scene(const YamlNode& root, const std::string& path,
                                                const Registry& registry,
                                                const SceneChanges& changes,
                                                Diagnostics& diagnostics) {
  Mistakes mistakes(diagnostics);
  const std::size_t before = mistakes.count();
  auto plan = std::make_shared<Blueprint>();
  plan->draft = read_scene(root, path, registry, changes.begins_on, mistakes);
  apply_changes(changes, plan->draft, mistakes);
  plan->settled = settle_all(path, plan->draft, registry, mistakes);
  const std::string name = std::filesystem::path(path).stem().string();
  const auto installation = assemble(name, plan->draft, plan->settled, {}, mistakes);
  installation->script = read_actions(plan->draft, mistakes);
  installation->blueprint = plan;
  installation->circumstances = registry.circumstances();
  if (mistakes.count() == before && !changes.sound)
    add_faults(plan->draft, registry, *installation, mistakes);
  return mistakes.count() == before ? installation : nullptr;
}

bool is_faults(const YamlNode& root) {
  return root.find("faults") != nullptr && root.find("entries") != nullptr;
}

void check_faults(const YamlNode& root, const std::string& path, const Registry& registry,
                  Mistakes& mistakes) {
  const YamlNode& part = *root.find("faults");
  const Registry::Entry* kind =
      part.kind == YamlNode::kScalar ? registry.find(part.scalar) : nullptr;
  if (kind != nullptr) {
    read_faults(root, path, *kind, mistakes);
  } else {
    mistakes.add_unknown({path, part.line, part.column}, "", "part type", describe(part),
                         part_types(registry));
  }
}

bool is_sheet(const YamlNode& root) {
  return root.find("sheet") != nullptr && root.find("scene") == nullptr;
}

std::shared_ptr<const Installation> load_tree(const YamlNode& root, const std::string& path,
                                              const Registry& registry, const SceneChanges& changes,
                                              Diagnostics& diagnostics) {
  if (!is_sheet(root)) return build_scene(root, path, registry, changes, diagnostics);
  Mistakes(diagnostics)
      .add({path, root.line, root.column},
           {"a data sheet cannot be run", "sheet", "scene: title",
            "name a scene; the parts of a scene name their data sheets"});
  return nullptr;
}

}  // namespace

std::shared_ptr<const Installation> rebuild(const Installation& installation,
                                            const std::vector<ChangedValue>& changed,
                                            const Hookups& hookups, Diagnostics& diagnostics) {
  Mistakes mistakes(diagnostics);
  const std::size_t before = mistakes.count();
  const Blueprint& plan = *installation.blueprint;
  std::vector<SettledPart> settled = plan.settled;
  for (const ChangedValue& c : changed) settled[c.part].values[c.param] = c.value;
  auto built = assemble(installation.name, plan.draft, settled, hookups, mistakes);
  built->blueprint = installation.blueprint;
  return mistakes.count() == before ? built : nullptr;
}

bool can_replace(const Installation& a, const Installation& b) {
  return a.state_bytes == b.state_bytes && circuit::same_shape(*a.network, *b.network);
}

const PartInstance* Installation::find(const std::string& part_name) const {
  for (const PartInstance& part : parts)
    if (part.name == part_name) return &part;
  return nullptr;
}

std::optional<std::pair<PartId, std::size_t>> Installation::find_offer(
    std::string_view kind) const {
  for (PartId p = 0; p < parts.size(); ++p) {
    const std::vector<LinkDecl>& offered = parts[p].kind->declaration.offered;
    for (std::size_t k = 0; k < offered.size(); ++k) {
      if (offered[k].kind == kind) return std::pair(p, k);
    }
  }
  return std::nullopt;
}

std::optional<PartId> Installation::find_id(const std::string& part_name) const {
  const PartInstance* part = find(part_name);
  if (part == nullptr) return std::nullopt;
  return static_cast<PartId>(part - parts.data());
}

std::shared_ptr<const Installation> load_scene(const std::string& path, const Registry& registry,
                                               const SceneChanges& changes,
                                               Diagnostics& diagnostics) {
  const std::optional<YamlNode> root = read_yaml(path, diagnostics);
  return root ? load_tree(*root, path, registry, changes, diagnostics) : nullptr;
}

std::shared_ptr<const Installation> load_scene_text(std::string_view text, const std::string& path,
                                                    const Registry& registry,
                                                    const SceneChanges& changes,
                                                    Diagnostics& diagnostics) {
  const std::optional<YamlNode> root = parse_yaml(text, path, diagnostics);
  return root ? load_tree(*root, path, registry, changes, diagnostics) : nullptr;
}

void check_file(const std::string& path, const Registry& registry, Diagnostics& diagnostics) {
  const std::optional<YamlNode> root = read_yaml(path, diagnostics);
  if (!root) return;
  Mistakes mistakes(diagnostics);
  if (is_sheet(*root)) {
    read_sheet(*root, path, "", registry, mistakes);
  } else if (is_faults(*root)) {
    check_faults(*root, path, registry, mistakes);
  } else if (root->kind == YamlNode::kMap && root->find("scene") == nullptr) {
    mistakes.add(
        {path, root->line, root->column},
        {"neither a scene nor a data sheet", describe(*root), "scene: or sheet:",
         "begin a scene with \"scene: title\", a data sheet with \"sheet: name\" and faults "
         "with \"faults: part type\""});
  } else {
    build_scene(*root, path, registry, {}, diagnostics);
  }
}

}  // namespace sixty
