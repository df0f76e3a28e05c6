#include "sim/diagnose/check.hpp"
#include "sim/scene/tree_reader.hpp"
#include "sim/scene/values.hpp"

namespace sixty::diagnose {
namespace {

constexpr double kSetOutMinutes = 5;  // to make ready for any check (judgement)
constexpr double kRiskMinutes = 60;   // what a risk of 1 is weighed as (judgement)

class CheckReader {
 public:
  CheckReader(const YamlNode& node, TreeReader& reader) : node_(node), reader_(reader) {}

  Check read() {
    Check check;
    if (!reader_.is_map(node_, "checks", "{check: T1, what: words, minutes: 5}")) return check;
    reader_.check_keys(
        node_, "a check",
        {"check", "what", "minutes", "covers", "shows", "asks", "needs", "hazard", "care", "risk"});
    check.id = text("check", true);
    check.what = text("what", true);
    check.needs = text("needs", false);
    check.hazard = text("hazard", false);
    check.care = text("care", !check.hazard.empty());
    check.minutes = number("minutes", 1, 10'000);
    check.risk = number("risk", 0, 1);
    const auto covers =
        reader_.word_of(node_, "covers", "a check", {"one", "group", "all", "circuit"});
    check.shows = reader_.texts(node_, "shows", "a check");
    check.covers = static_cast<Check::Covers>(covers.value_or(0));
    check.asks = reader_.says_yes(node_, "asks", "a check");
    return check;
  }

 private:
  std::string text(const char* key, bool needed) {
    return reader_.text(node_, key, "a check", needed);
  }

  double number(const char* key, double least, double most) {
    const YamlNode* node = node_.find(key);
    if (node == nullptr) return 0;
    const auto value = check_value(quantity_field(key, "1", least, most, ""), *node, key, reader_);
    return value ? value->number : 0;
  }

  const YamlNode& node_;
  TreeReader& reader_;
};

}  // namespace

CheckBook::CheckBook(const Registry& registry, Mistakes& mistakes) {
  for (const SheetText& text : registry.checks()) {
    const auto root = parse_yaml(text.text, text.path, mistakes.diagnostics());
    if (!root) continue;
    TreeReader reader(text.path, mistakes);
    const YamlNode* list = reader.required(*root, *root, "checks", "", "checks: [...]");
    if (list == nullptr || !reader.is_list(*list, "checks", "[{check: T1, ...}]")) continue;
    for (const YamlNode& node : list->items) all_.push_back(CheckReader(node, reader).read());
  }
}

const Check* CheckBook::find(const std::string& id) const {
  for (const Check& check : all_) {
    if (check.id == id) return &check;
  }
  return nullptr;
}

double cost_min(const Check& check) {
  return kSetOutMinutes + check.minutes + kRiskMinutes * check.risk;
}

}  // namespace sixty::diagnose
