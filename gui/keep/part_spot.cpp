#include "gui/keep/part_spot.hpp"

#include <charconv>

namespace sixty::gui {
namespace {

constexpr std::string_view kRun = "_run";
constexpr std::string_view kNumber = "{n}";

int number_at(const YamlNode& place, const char* key, int otherwise) {
  const YamlNode* node = place.find(key);
  if (node == nullptr) return otherwise;
  std::from_chars(node->scalar.data(), node->scalar.data() + node->scalar.size(), otherwise);
  return otherwise;
}

/// Whether a place makes a part of that name: "clock_{n}" clock_1 to clock_20.
bool makes(const YamlNode& place, std::string_view name) {
  const YamlNode* node = place.find("name");
  if (node == nullptr) return false;
  const std::string& written = node->scalar;
  const std::size_t at = written.find(kNumber);
  if (at == std::string::npos) return written == name;
  const std::string head = written.substr(0, at), tail = written.substr(at + kNumber.size());
  if (name.size() <= head.size() + tail.size() || name.substr(0, head.size()) != head ||
      name.substr(name.size() - tail.size()) != tail)
    return false;
  const std::string_view digits = name.substr(head.size(), name.size() - head.size() - tail.size());
  int number = 0;
  const auto [end, code] = std::from_chars(digits.data(), digits.data() + digits.size(), number);
  const int first = number_at(place, "first", 1);
  return code == std::errc() && end == digits.data() + digits.size() && number >= first &&
         number < first + number_at(place, "count", 1);
}

std::optional<PartSpot> spot_in(const YamlNode& places, const YamlText::Way& way,
                                std::string_view name) {
  for (std::size_t k = 0; k < places.items.size(); ++k) {
    const YamlNode& place = places.items[k];
    YamlText::Way here = way;
    here.push_back(std::to_string(k));
    PartSpot spot{here, "", {}, place.find("count") != nullptr};
    if (makes(place, name)) {
      spot.piece = "each";
      return spot;
    }
    if (name.size() > kRun.size() && name.substr(name.size() - kRun.size()) == kRun &&
        makes(place, name.substr(0, name.size() - kRun.size()))) {
      spot.piece = "run";
      return spot;
    }
    here.push_back("branch");
    if (const YamlNode* branch = place.find("branch")) {
      if (auto found = spot_in(*branch, here, name)) return found;
    }
  }
  return std::nullopt;
}

}  // namespace

std::optional<PartSpot> find_spot(const YamlText& scene, const std::string& part) {
  if (scene.find({"parts", part}) != nullptr) return PartSpot{{"parts", part}, "", {}, false};
  const YamlNode* lines = scene.find({"lines"});
  if (lines == nullptr) return std::nullopt;
  for (const auto& [key, line] : lines->entries) {
    if (part == key.scalar + "_ballast" && line.find("ballast") != nullptr)
      return PartSpot{{"lines", key.scalar, "ballast"}, "", {}, false};
    const YamlNode* places = line.find("places");
    if (places == nullptr) continue;
    auto found = spot_in(*places, {"lines", key.scalar, "places"}, part);
    if (!found) continue;
    found->template_of = {"lines", key.scalar, found->piece};
    return found;
  }
  return std::nullopt;
}

}  // namespace sixty::gui
