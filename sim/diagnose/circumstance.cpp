#include "sim/diagnose/circumstance.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>

#include "sim/base/text.hpp"
#include "sim/scene/tree_reader.hpp"
#include "sim/scene/values.hpp"

namespace sixty::diagnose {
namespace {

constexpr double kMostDays = 500 * 365.25;

struct Unit {
  const char* word;
  double days;
};
constexpr Unit kUnits[] = {
    {"hour", 1.0 / 24}, {"day", 1}, {"week", 7}, {"month", 30.4375}, {"year", 365.25}};

std::string lower(std::string text) {
  for (char& c : text) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return text;
}

class CircumstanceReader {
 public:
  explicit CircumstanceReader(TreeReader& reader) : reader_(reader) {}

  Ageing ageing(const YamlNode& map, const char* key) {
    Ageing ageing;
    const YamlNode* node = reader_.required(map, map, key, "ageing", "{usual: 60 years, ...}");
    if (node == nullptr || !reader_.is_map(*node, key, "{usual: 60 years, causes: {}}"))
      return ageing;
    reader_.check_keys(*node, key, {"usual", "causes"});
    ageing.usual_days = std::max(days(*node, "usual"), 1.0);
    ageing.power.fill(0);
    causes(*node, 0, ageing.power);
    return ageing;
  }

  Circumstance one(const YamlNode& node) {
    Circumstance one;
    one.factor.fill(1);
    if (!reader_.is_map(node, "circumstances", "{circumstance: oiled, causes: {oil: 5}}"))
      return one;
    reader_.check_keys(node, "a circumstance",
                       {"circumstance", "words", "weather", "concerns", "fades", "causes"});
    one.name = reader_.text(node, "circumstance", "a circumstance", true);
    one.words = reader_.texts(node, "words", "a circumstance");
    one.weather = reader_.says_yes(node, "weather", "a circumstance");
    if (const auto cause = reader_.word_of(node, "concerns", "a circumstance", cause_words()))
      one.concerns = static_cast<Cause>(*cause);
    one.fades_days = days(node, "fades");
    causes(node, 0.01, one.factor);
    return one;
  }

 private:
  double days(const YamlNode& map, const char* key) {
    const YamlNode* node = map.find(key);
    if (node == nullptr) return 0;
    const auto found = node->kind == YamlNode::kScalar ? read_days(node->scalar) : std::nullopt;
    if (!found) reader_.add(*node, key, "this is no time", "2 weeks, 18 months, 3 years", "");
    return found.value_or(0);
  }

  void causes(const YamlNode& map, double least, ByCause& of) {
    const YamlNode* node = reader_.required(map, map, "causes", "circumstances", "{wear: 2}");
    if (node == nullptr || !reader_.is_map(*node, "causes", "{wear: 2}")) return;
    reader_.check_keys(*node, "causes", cause_words());
    const auto& words = cause_words();
    for (std::size_t k = 0; k < words.size(); ++k) {
      const YamlNode* number = node->find(words[k]);
      if (number == nullptr) continue;
      const auto value =
          check_value(quantity_field("causes", "1", least, 100, ""), *number, words[k], reader_);
      if (value) of[k] = value->number;
    }
  }

  TreeReader& reader_;
};

}  // namespace

std::optional<double> read_days(const std::string& written) {
  std::string text = lower(trimmed(written));
  if (text == "today") return 0;
  if (text == "yesterday") return 1;
  constexpr std::string_view kAgo = " ago";
  if (text.size() > kAgo.size() && text.ends_with(kAgo)) text.resize(text.size() - kAgo.size());
  double number = 0;
  const char* end = text.data() + text.size();
  const auto [after, error] = std::from_chars(text.data(), end, number, std::chars_format::fixed);
  if (error != std::errc{} || number < 0) return std::nullopt;
  std::string unit = trimmed(std::string(after, end));
  if (unit.size() > 1 && unit.back() == 's') unit.pop_back();
  for (const Unit& known : kUnits) {
    if (unit == known.word && number * known.days <= kMostDays) return number * known.days;
  }
  return std::nullopt;
}

CircumstanceBook::CircumstanceBook(const std::vector<SheetText>& texts, Mistakes& mistakes) {
  for (const SheetText& text : texts) {
    const auto root = parse_yaml(text.text, text.path, mistakes.diagnostics());
    if (!root) continue;
    TreeReader reader(text.path, mistakes);
    CircumstanceReader one(reader);
    if (!reader.is_map(*root, "", "ageing: {}, circumstances: []")) continue;
    reader.check_keys(*root, "a file of circumstances", {"ageing", "circumstances"});
    const YamlNode* ageing = reader.required(*root, *root, "ageing", "", "ageing: {}");
    if (ageing != nullptr && reader.is_map(*ageing, "ageing", "{built: {}, serviced: {}}")) {
      built_ = one.ageing(*ageing, "built");
      serviced_ = one.ageing(*ageing, "serviced");
    }
    const YamlNode* list = reader.required(*root, *root, "circumstances", "", "circumstances: []");
    if (list == nullptr || !reader.is_list(*list, "circumstances", "[]")) continue;
    for (const YamlNode& node : list->items) all_.push_back(one.one(node));
  }
}

const Circumstance* CircumstanceBook::find(const std::string& words, bool weather) const {
  const std::string wanted = lower(trimmed(words));
  for (const Circumstance& one : all_) {
    if (one.weather != weather) continue;
    const bool other = std::any_of(one.words.begin(), one.words.end(),
                                   [&](const std::string& w) { return lower(w) == wanted; });
    if (other || lower(one.name) == wanted) return &one;
  }
  return nullptr;
}

std::vector<std::string> CircumstanceBook::names(bool weather) const {
  std::vector<std::string> names;
  for (const Circumstance& one : all_) {
    if (one.weather == weather) names.push_back(one.name);
  }
  return names;
}

}  // namespace sixty::diagnose
