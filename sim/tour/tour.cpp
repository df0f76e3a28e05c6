#include "sim/tour/tour.hpp"

#include <algorithm>
#include <utility>

#include "sim/scene/values.hpp"
#include "sim/tour/saying.hpp"
#include "sim/tour/step_reader.hpp"

namespace sixty {
namespace {

constexpr std::size_t kMostSteps = 200;
constexpr const char* kHead = "scene: NAME, steps: [...]";
constexpr const char* kExample = "at: Mon 08:44:04.9, for: 12 s, view: case, text: {en: words}";

class TourReader {
 public:
  TourReader(const std::string& path, const Installation& installation, const Registry& registry,
             Mistakes& mistakes)
      : steps_(path, installation, registry, mistakes), reader_(steps_.tree()) {}

  void read(const YamlNode& root, Tour& tour) {
    if (!reader_.is_map(root, "tour", kHead)) return;
    reader_.check_keys(root, "a tour", {"scene", "steps"});
    if (!steps_.is_of_scene(root, "tour")) return;
    tour.log = steps_.installation().script;
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
  TourStep read_step(const YamlNode& node, Tour& tour) {
    TourStep step;
    if (!reader_.is_map(node, "step", kExample)) return step;
    std::vector<std::string> known = keys_of_stop();
    known.insert(known.end(), {"at", "for"});
    reader_.check_keys(node, "a step", known);
    steps_.read_stop(node, step);
    if (const auto* text = reader_.required(node, node, "text", "step", "text: {en: words}"))
      step.text = steps_.read_sayings(*text, "text");
    if (const auto* at = reader_.required(node, node, "at", "step", "at: Mon 08:44:04.9"))
      step.at = steps_.read_time(*at, "at").value_or(0);
    if (const auto* lasts = reader_.required(node, node, "for", "step", "for: 12 s"))
      steps_.read_number(*lasts, quantity_field("for", "s", 1, 600, ""), step.lasts_s);
    for (const Sayings* sayings : {&step.head, &step.text}) add_readings(*sayings, tour.readings);
    for (Action& deed : steps_.read_deeds(node)) tour.log.push_back(std::move(deed));
    return step;
  }

  StepReader steps_;
  TreeReader& reader_;
};

}  // namespace

double Tour::lasts_s() const {
  double sum = 0;
  for (const TourStep& step : steps) sum += step.lasts_s;
  return sum;
}

bool is_tour(const YamlNode& root) {
  return root.find("steps") != nullptr && root.find("lesson") == nullptr;
}

void check_tour(const YamlNode& root, const std::string& path, const Registry& registry,
                Diagnostics& diagnostics) {
  const auto installation = scene_named_in(root, path, "tour", registry, diagnostics);
  if (installation == nullptr) return;
  Mistakes mistakes(diagnostics);
  Tour tour;
  TourReader(path, *installation, registry, mistakes).read(root, tour);
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
