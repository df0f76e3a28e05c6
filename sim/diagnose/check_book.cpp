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
        {"check", "what", "minutes", "covers", "asks", "needs", "hazard", "care", "risk"});
    check.id = text("check", true);
    check.what = text("what", true);
    check.needs = text("needs", false);
    check.hazard = text("hazard", false);
    check.care = text("care", !check.hazard.empty());
    check.minutes = number("minutes", 1, 10'000);
    check.risk = number("risk", 0, 1);
    check.covers = covers();
    check.asks = text("asks", false) == "yes";
    return check;
  }

 private:
  std::string text(const char* key, bool needed) {
    const YamlNode* node =
        needed ? reader_.required(node_, node_, key, "a check", "a text") : node_.find(key);
    return node != nullptr && reader_.is_scalar(*node, key, "a text") ? node->scalar : "";
  }

  double number(const char* key, double least, double most) {
    const YamlNode* node = node_.find(key);
    if (node == nullptr) return 0;
    const auto value = check_value(quantity_field(key, "1", least, most, ""), *node, key, reader_);
    return value ? value->number : 0;
  }

  Check::Covers covers() {
    const std::string how = text("covers", false);
    if (how == "all") return Check::Covers::kAll;
    if (how == "group") return Check::Covers::kGroup;
    if (!how.empty() && how != "one")
      reader_.add(*node_.find("covers"), "covers", how, "one, group or all",
                  "say how much of an installation the check shows");
    return Check::Covers::kOne;
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
