#include "sim/diagnose/sign.hpp"

namespace sixty::diagnose {

SignBook::SignBook(const Registry& registry, Mistakes& mistakes) {
  for (const auto& [name, kind] : registry.entries()) {
    for (const SheetText& text : kind.signs) {
      const auto root = parse_yaml(text.text, text.path, mistakes.diagnostics());
      if (!root) continue;
      for (Sign& sign : read_signs(*root, text.path, kind, mistakes))
        all_.push_back(std::move(sign));
      const YamlNode* visit = root->find("visit");
      if (visit == nullptr) continue;
      for (const VisitAct& act : read_visit(*visit, text.path, kind, mistakes))
        acts_.push_back(act);
    }
  }
}

const Sign* SignBook::find(std::string_view name, const Registry::Entry& kind) const {
  for (const Sign& sign : all_) {
    if (sign.kind == &kind && sign.name == name) return &sign;
  }
  return nullptr;
}

}  // namespace sixty::diagnose
