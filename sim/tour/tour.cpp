#include "sim/tour/tour.hpp"

#include <algorithm>
#include <utility>

#include "sim/scene/beside.hpp"
#include "sim/scene/blueprint.hpp"
#include "sim/scene/injection.hpp"
#include "sim/scene/loader.hpp"
#include "sim/scene/script.hpp"
#include "sim/scene/values.hpp"
#include "sim/tour/saying.hpp"

namespace sixty {
namespace {

constexpr std::size_t kMostSteps = 200;
constexpr const char* kHead = "scene: NAME, steps: [...]";
constexpr const char* kExample = "at: Mon 08:44:04.9, for: 12 s, view: case, text: {en: words}";
const std::string kPartView = "part:";

class TourReader {
 public:
  TourReader(const std::string& path, const Installation& installation, const Registry& registry,
             Mistakes& mistakes)
      : installation_(installation),
        mistakes_(mistakes),
        reader_(path, mistakes),
        faults_(registry, mistakes) {}

  void read(const YamlNode& root, Tour& tour) {
    if (!reader_.is_map(root, "tour", kHead)) return;
    reader_.check_keys(root, "a tour", {"scene", "steps"});
    if (!is_of_scene(root)) return;
    tour.log = installation_.script;
    const YamlNode* steps = reader_.required(root, root, "steps", "tour", "steps: [...]");
    if (steps == nullptr || !reader_.is_list(*steps, "steps", "steps: [...]")) return;
    if (steps->items.empty() || steps->items.size() > kMostSteps) {
      reader_.add(*steps, "steps", "a tour cannot have so many", "from 1 to 200",
                  "write at least one, and leave out what is too much");
      return;
    }
    for (const YamlNode& node : steps->items) tour.steps.push_back(read_step(node, tour));
    std::stable_sort(tour.log.begin(), tour.log.end(),
                     [](const Action& a, const Action& b) { return a.at < b.at; });
  }

 private:
  /// Of another scene hardly anything would be right.
  bool is_of_scene(const YamlNode& root) {
    const YamlNode* scene = reader_.required(root, root, "scene", "tour", "scene: NAME");
    if (scene == nullptr || !reader_.is_scalar(*scene, "scene", "the name of a scene"))
      return false;
    if (scene->scalar == installation_.name) return true;
    reader_.add(*scene, "scene", "this tour is of another scene", installation_.name,
                "open that scene, or choose a tour of this one");
    return false;
  }

  TourStep read_step(const YamlNode& node, Tour& tour) {
    TourStep step;
    if (!reader_.is_map(node, "step", kExample)) return step;
    reader_.check_keys(
        node, "a step",
        {"head", "text", "at", "for", "view", "speed", "stretch", "light", "do", "fault"});
    if (const YamlNode* head = node.find("head")) step.head = read_sayings(*head, "head", tour);
    if (const auto* text = reader_.required(node, node, "text", "step", "text: {en: words}"))
      step.text = read_sayings(*text, "text", tour);
    if (const auto* at = reader_.required(node, node, "at", "step", "at: Mon 08:44:04.9"))
      read_time(*at, step);
    if (const auto* lasts = reader_.required(node, node, "for", "step", "for: 12 s"))
      read_number(*lasts, quantity_field("for", "s", 1, 600, ""), step.lasts_s);
    if (const YamlNode* speed = node.find("speed"))
      read_number(*speed, quantity_field("speed", "1", 0.0001, 100000, ""), step.speed);
    if (const YamlNode* stretch = node.find("stretch")) read_stretch(*stretch, step);
    if (const YamlNode* view = node.find("view")) read_view(*view, step);
    if (const YamlNode* light = node.find("light")) read_light(*light, step);
    if (const YamlNode* hands = node.find("do")) read_hands(*hands, tour);
    if (const YamlNode* faults = node.find("fault")) read_faults(*faults, tour);
    return step;
  }

  Sayings read_sayings(const YamlNode& node, const std::string& label, Tour& tour) {
    Sayings sayings;
    if (!reader_.is_map(node, label, "{en: words}")) return sayings;
    for (const auto& [key, value] : node.entries) {
      if (!reader_.is_scalar(value, label + "." + key.scalar, "words")) continue;
      Saying saying =
          read_saying(reader_.written(value, label + "." + key.scalar), installation_, mistakes_);
      for (const Saying::Piece& piece : saying.pieces) {
        if (piece.reading && std::find(tour.readings.begin(), tour.readings.end(),
                                       *piece.reading) == tour.readings.end())
          tour.readings.push_back(*piece.reading);
      }
      sayings[key.scalar] = std::move(saying);
    }
    if (sayings.count("en") == 0) {
      reader_.add(node, label, "the English words are missing", "{en: words}",
                  "add them; other languages fall back on them");
    }
    return sayings;
  }

  void read_time(const YamlNode& node, TourStep& step) {
    if (!reader_.is_scalar(node, "at", "a time of the scene")) return;
    Diagnostic mistake;
    const auto at = parse_time(node.scalar, installation_.clock, 0, mistake);
    if (!at) {
      mistakes_.add(reader_.place(node),
                    {"at: " + mistake.what, mistake.found, mistake.expected, mistake.mend});
    }
    step.at = at.value_or(0);
  }

  void read_number(const YamlNode& node, const ParamDecl& field, double& number) {
    const auto value = check_value(field, node, field.name, reader_);
    if (value) number = value->number;
  }

  void read_stretch(const YamlNode& node, TourStep& step) {
    step.stretch = node.scalar == "yes";
    if (node.scalar == "yes" || node.scalar == "no") return;
    reader_.add(node, "stretch", "this is neither yes nor no", "yes or no",
                "write stretch: yes, or leave it out");
  }

  void read_view(const YamlNode& node, TourStep& step) {
    if (node.scalar == "case") return;
    if (node.scalar == "building") {
      step.scope = Scope::kBuilding;
      return;
    }
    if (node.scalar.rfind(kPartView, 0) == 0) {
      step.scope = Scope::kPart;
      step.part = part_of(node, "view", node.scalar.substr(kPartView.size()));
      return;
    }
    reader_.add(node, "view", "there is nothing of that name to look at",
                "building, case, or part:NAME", "choose one of them");
  }

  std::optional<PartId> part_of(const YamlNode& node, const std::string& label,
                                const std::string& name) {
    const auto part = installation_.find_id(name);
    if (!part)
      mistakes_.add_unknown(reader_.place(node), label, "part", name,
                            names_of(installation_.parts));
    return part;
  }

  void read_light(const YamlNode& node, TourStep& step) {
    if (!reader_.is_list(node, "light", "light: [NAME, NAME]")) return;
    for (const YamlNode& item : node.items) {
      if (!reader_.is_scalar(item, "light", "the name of a part")) continue;
      if (const auto part = part_of(item, "light", item.scalar)) step.light.push_back(*part);
    }
  }

  /// "TIME PART.COMMAND [QUANTITY]".
  void read_hands(const YamlNode& node, Tour& tour) {
    if (!reader_.is_list(node, "do", "do: [TIME PART.COMMAND]")) return;
    Draft draft = installation_.blueprint->draft;
    draft.script.clear();
    for (const YamlNode& item : node.items) {
      if (!reader_.is_scalar(item, "do", "TIME PART.COMMAND [QUANTITY]")) continue;
      DraftAction action;
      if (!split_action(item.scalar, action, mistakes_)) continue;
      action.time.place = action.action.place = reader_.place(item);
      draft.script.push_back(std::move(action));
    }
    for (Action& action : read_actions(draft, mistakes_)) tour.log.push_back(std::move(action));
  }

  /// As behind --fault.
  void read_faults(const YamlNode& node, Tour& tour) {
    if (!reader_.is_list(node, "fault", "fault: [ID@PART]")) return;
    for (const YamlNode& item : node.items) {
      if (!reader_.is_scalar(item, "fault", "ID@PART[:SEVERITY][,from=TIME][,until=TIME]"))
        continue;
      const Written written = reader_.written(item, "fault");
      for (Action& action :
           read_fault(written, installation_.blueprint->draft, faults_, mistakes_)) {
        if (!action.clears) check_fault(action, written, installation_, mistakes_);
        tour.log.push_back(std::move(action));
      }
    }
  }

  const Installation& installation_;
  Mistakes& mistakes_;
  TreeReader reader_;
  FaultBook faults_;
};

}  // namespace

double Tour::lasts_s() const {
  double sum = 0;
  for (const TourStep& step : steps) sum += step.lasts_s;
  return sum;
}

bool is_tour(const YamlNode& root) { return root.find("steps") != nullptr; }

void check_tour(const YamlNode& root, const std::string& path, const Registry& registry,
                Diagnostics& diagnostics) {
  Mistakes mistakes(diagnostics);
  TreeReader reader(path, mistakes);
  const YamlNode* scene = reader.required(root, root, "scene", "tour", kHead);
  if (scene == nullptr || !reader.is_scalar(*scene, "scene", "the name of a scene")) return;
  const std::string file = scene_beside(path, scene->scalar);
  if (file.empty()) {
    reader.add(*scene, "scene", "there is no such scene",
               "a scene beside the tour or one folder up",
               "correct the name, or put the tour into a folder beside its scene");
    return;
  }
  const auto installation = load_scene(file, registry, {}, diagnostics);
  Tour tour;
  if (installation != nullptr) TourReader(path, *installation, registry, mistakes).read(root, tour);
}

std::shared_ptr<const Tour> read_tour(const std::string& path, const Installation& installation,
                                      const Registry& registry, Diagnostics& diagnostics) {
  const std::size_t before = diagnostics.list().size();
  const auto root = read_yaml(path, diagnostics);
  if (!root) return nullptr;
  Mistakes mistakes(diagnostics);
  auto tour = std::make_shared<Tour>();
  TourReader(path, installation, registry, mistakes).read(*root, *tour);
  return diagnostics.list().size() == before ? tour : nullptr;
}

}  // namespace sixty
