#include "gui/keep/moment.hpp"

#include <fmt/format.h>

#include <charconv>
#include <filesystem>
#include <system_error>
#include <utility>

#include "gui/keep/action_text.hpp"
#include "gui/keep/write.hpp"
#include "sim/base/file.hpp"
#include "sim/base/text.hpp"
#include "sim/scene/values.hpp"

namespace sixty::gui {
namespace {

namespace fs = std::filesystem;

constexpr const char* kProgram = "sixtybeats " SIXTY_VERSION;
constexpr const char* kAgain = "save the moment again";

bool same(const Action& a, const Action& b) {
  return a.at == b.at && a.part == b.part && a.command == b.command && a.fault == b.fault &&
         a.hookup == b.hookup && a.clears == b.clears && a.value == b.value;
}

/// Those that are not in the scene itself.
std::vector<Action> further_actions(const std::vector<Action>& all,
                                    const std::vector<Action>& scripted) {
  std::vector<Action> further;
  std::size_t next = 0;
  for (const Action& action : all) {
    while (next < scripted.size() && scripted[next].added) ++next;
    if (next < scripted.size() && same(action, scripted[next])) {
      ++next;
    } else {
      further.push_back(action);
    }
  }
  return further;
}

/// As seen from the file's folder if it is there or below, so that both can be moved together.
std::string scene_from(const std::string& scene, const std::string& path) {
  std::error_code code;
  const fs::path whole = fs::weakly_canonical(fs::absolute(scene, code), code);
  const fs::path folder = fs::weakly_canonical(fs::absolute(folder_of(path), code), code);
  if (code) return scene;
  const fs::path near = whole.lexically_relative(folder);
  return near.empty() || *near.begin() == ".." ? whole.string() : near.string();
}

/// Takes the pieces of a moment's file.
class MomentReader {
 public:
  MomentReader(const std::string& path, const Registry& registry, Mistakes& mistakes)
      : path_(path), registry_(registry), reader_(path, mistakes) {}

  std::optional<Moment> read(const YamlNode& root) {
    if (!reader_.is_map(root, "", "moment: title, scene: file, at: 8h30m")) return std::nullopt;
    const std::size_t before = reader_.mistakes().count();
    reader_.check_keys(root, "a moment",
                       {"moment", "program", "scene", "seed", "set", "at", "state", "actions"});
    read_head(root);
    if (reader_.mistakes().count() != before) return std::nullopt;
    load(root);
    if (moment_.installation == nullptr) return std::nullopt;
    read_actions(root);
    if (reader_.mistakes().count() != before) return std::nullopt;
    return moment_;
  }

 private:
  const YamlNode* text(const YamlNode& root, const char* key, const char* example) {
    const YamlNode* node = reader_.required(root, root, key, "", example);
    return node != nullptr && reader_.is_scalar(*node, key, example) ? node : nullptr;
  }

  void read_whole(const YamlNode& root, const char* key, int base, const char* expected,
                  std::uint64_t& into) {
    const YamlNode* node = text(root, key, expected);
    if (node == nullptr) return;
    const char* end = node->scalar.data() + node->scalar.size();
    const auto [behind, code] = std::from_chars(node->scalar.data(), end, into, base);
    if (code == std::errc() && behind == end) return;
    reader_.add(*node, key, "this is no such number", expected, kAgain);
  }

  void read_head(const YamlNode& root) {
    text(root, "moment", "moment: title");
    if (const YamlNode* scene = text(root, "scene", "scene: file")) {
      const fs::path named = scene->scalar;
      moment_.scene = named.is_absolute() ? named.string() : (folder_of(path_) / named).string();
    }
    read_whole(root, "seed", 10, "a whole number, as in seed: 1", seed_);
    read_whole(root, "state", 16, "a hexadecimal number in quotes", moment_.state);
    read_set(root);
    if (const YamlNode* at = text(root, "at", "a duration from the start, as in at: 8h30m")) {
      Diagnostic mistake;
      const auto time = parse_duration(at->scalar, mistake);
      if (!time)
        reader_.mistakes().add(reader_.place(*at), {"at: " + mistake.what, mistake.found,
                                                    mistake.expected, mistake.mend});
      moment_.at = time.value_or(0);
    }
  }

  void read_set(const YamlNode& root) {
    const YamlNode* set = root.find("set");
    if (set == nullptr || !reader_.is_list(*set, "set", "[part.parameter=QUANTITY]")) return;
    for (const YamlNode& item : set->items) {
      if (reader_.is_scalar(item, "set", "part.parameter=QUANTITY"))
        moment_.set.push_back(item.scalar);
    }
  }

  /// What the loader finds wrong with changed values stands in this file.
  void load(const YamlNode& root) {
    SceneChanges changes;
    changes.seed = seed_;
    changes.set = moment_.set;
    Diagnostics found;
    moment_.installation = load_scene(moment_.scene, registry_, changes, found);
    const YamlNode* set = root.find("set");
    for (Diagnostic mistake : found.list()) {
      if (mistake.file.empty() && set != nullptr) {
        mistake.file = path_;
        mistake.line = set->line;
        mistake.column = set->column;
      }
      reader_.mistakes().diagnostics().add(mistake);
    }
  }

  void read_actions(const YamlNode& root) {
    const YamlNode* actions = root.find("actions");
    if (actions == nullptr || actions->kind == YamlNode::kNull) return;
    const char* example = "[at 0s: part.command]";
    if (!reader_.is_list(*actions, "actions", example)) return;
    ActionReader one(*moment_.installation, registry_, reader_.mistakes());
    for (const YamlNode& item : actions->items) {
      if (item.kind != YamlNode::kMap || item.entries.size() != 1 ||
          item.entries[0].key.scalar.compare(0, 3, "at ") != 0) {
        reader_.add(item, "actions", "an action is a time and what was done", example,
                    "write \"at\", the time, a colon and the action");
        continue;
      }
      const auto& [key, value] = item.entries[0];
      if (!reader_.is_scalar(value, "actions", "part.command")) continue;
      Written time = reader_.written(key, "actions");
      time.text.erase(0, 3);
      if (const auto action = one.read(time, reader_.written(value, "actions")))
        moment_.actions.push_back(*action);
    }
  }

  std::string path_;
  const Registry& registry_;
  TreeReader reader_;
  std::uint64_t seed_ = 1;
  Moment moment_;
};

}  // namespace

Moment moment_of(std::shared_ptr<const Installation> installation, const std::string& scene,
                 const std::vector<std::string>& set, const std::vector<Action>& log, SimTime at,
                 std::uint64_t state) {
  Moment moment;
  moment.scene = scene;
  moment.set = set;
  moment.actions = further_actions(log, installation->script);
  moment.installation = std::move(installation);
  moment.at = at;
  moment.state = state;
  return moment;
}

std::string moment_text(const Moment& moment, const std::string& path) {
  const Installation& scene = *moment.installation;
  std::string text = fmt::format(
      "# A moment of a run: sixtybeats-bench opens it like a scene.\n"
      "moment: {}\nprogram: {}\nscene: {}\nseed: {}\n",
      in_quotes(scene.title + ", " + format_instant(scene.clock, moment.at)), kProgram,
      in_quotes(scene_from(moment.scene, path)), scene.seed);
  if (!moment.set.empty()) {
    text += "set:\n";
    for (const std::string& change : moment.set) text += fmt::format("  - {}\n", in_quotes(change));
  }
  text += fmt::format("at: {}\nstate: \"{:016x}\"\n", format_duration(moment.at), moment.state);
  if (moment.actions.empty()) return text;
  text += "actions:\n";
  for (const Action& action : moment.actions) {
    text += fmt::format("  - at {}: {}\n", format_duration(action.at),
                        in_quotes(action_text(action, scene)));
  }
  return text;
}

bool save_moment(const Moment& moment, const std::string& path, std::string& error) {
  const std::string text = moment_text(moment, path);
  if (find_invalid_utf8(text) != std::string_view::npos) {
    error = "the scene's path is no UTF-8, which a moment cannot hold; give the file another name";
    return false;
  }
  return write_file_whole(path, text, error);
}

bool is_moment(const YamlNode& root) { return root.find("moment") != nullptr; }

std::optional<Moment> open_moment(const std::string& path, const Registry& registry,
                                  Diagnostics& mistakes) {
  const std::optional<YamlNode> root = read_yaml(path, mistakes);
  if (!root) return std::nullopt;
  Mistakes noted(mistakes);
  return MomentReader(path, registry, noted).read(*root);
}

std::optional<Moment> open_file(const std::string& path, const Registry& registry,
                                const SceneChanges& changes, Diagnostics& mistakes) {
  Diagnostics unread;  // whoever reads it next tells what is wrong
  const std::optional<YamlNode> root = read_yaml(path, unread);
  if (root && is_moment(*root)) {
    if (!changes.seed && changes.set.empty() && changes.action.empty() && changes.fault.empty())
      return open_moment(path, registry, mistakes);
    mistakes.add({path, root->line, root->column, "a moment cannot be changed as it is opened",
                  "changes beside it", "the moment alone",
                  "open it first, then change what is to be otherwise"});
    return std::nullopt;
  }
  Moment start;
  start.scene = path;
  start.set = changes.set;
  start.kept = false;
  start.installation = load_scene(path, registry, changes, mistakes);
  return start.installation != nullptr ? std::optional(start) : std::nullopt;
}

bool go_to(const Moment& moment, Session& session) {
  for (const Action& action : moment.actions) session.act(action);
  session.seek(moment.at);
  return !moment.kept || session.state_hash() == moment.state;
}

}  // namespace sixty::gui
