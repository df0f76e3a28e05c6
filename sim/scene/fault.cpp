#include "sim/scene/fault.hpp"

#include <algorithm>
#include <cmath>

#include "sim/base/math.hpp"
#include "sim/scene/values.hpp"
#include "sim/scene/yaml_document.hpp"

namespace sixty {
namespace {

/// Between two numbers; in equal ratios only between numbers above nothing.
double between(double mild, double severe, double severity, bool by_ratio) {
  if (!by_ratio || mild <= 0 || severe <= 0) return mild + (severe - mild) * severity;
  return mild * det_pow(severe / mild, severity);
}

double on_step(const ParamDecl& decl, double number) {
  const double step = decl.kind == ParamKind::kCount ? 1 : decl.step;
  return clamped(decl, step > 0 ? std::round(number / step) * step : number);
}

Value interpolated(const ParamDecl& decl, const Value& mild, const Value& severe, double severity,
                   bool by_ratio);

// Records pair up in their order; a field that only the severe one has is as there.
Value::Record interpolated(const ParamDecl& decl, const Value::Record& mild,
                           const Value::Record& severe, double severity, bool by_ratio) {
  Value::Record record = severe;
  for (std::size_t i = 0; i < record.size() && i < mild.size(); ++i) {
    const std::size_t field = index_of(decl.fields, record[i].name);
    record[i].value =
        interpolated(decl.fields[field], mild[i].value, severe[i].value, severity, by_ratio);
  }
  return record;
}

/// Of a list of texts as many as the severity's share of them.
Value first_of(const Value& list, double severity) {
  Value some = list;
  const auto all = static_cast<double>(list.items.size());
  some.items.resize(static_cast<std::size_t>(std::min(std::ceil(severity * all), all)));
  return some;
}

Value interpolated(const ParamDecl& decl, const Value& mild, const Value& severe, double severity,
                   bool by_ratio) {
  Value value = severe;
  if (decl.kind == ParamKind::kQuantity || decl.kind == ParamKind::kCount) {
    value.number = on_step(decl, between(mild.number, severe.number, severity, by_ratio));
  } else if (decl.kind == ParamKind::kTexts) {
    value = first_of(severe, severity);
  }
  for (std::size_t i = 0; i < value.records.size() && i < mild.records.size(); ++i) {
    value.records[i] = interpolated(decl, mild.records[i], severe.records[i], severity, by_ratio);
  }
  return value;
}

bool same(const Value& a, const Value& b) {
  const auto same_text = [](const Value& x, const Value& y) { return x.text == y.text; };
  return a.number == b.number && a.records.empty() && b.records.empty() &&
         std::equal(a.items.begin(), a.items.end(), b.items.begin(), b.items.end(), same_text);
}

// "F13" before "F102".
bool numbered_before(const std::shared_ptr<const Fault>& a, const std::shared_ptr<const Fault>& b) {
  const auto key = [](const Fault& f) { return std::make_pair(f.number.size(), f.number); };
  return key(*a) < key(*b);
}

}  // namespace

double prior_weight(HowOften how_often) {
  switch (how_often) {
    case HowOften::kRare:
      return 1;
    case HowOften::kOccasional:
      return 3;
    default:
      return 8;
  }
}

const char* how_often_text(HowOften how_often) {
  switch (how_often) {
    case HowOften::kRare:
      return "rare";
    case HowOften::kOccasional:
      return "occasional";
    default:
      return "frequent";
  }
}

std::string full_name(const Fault& fault) { return fault.number + " " + fault.name; }

bool goes_by(const Fault& fault, std::string_view id) {
  return fault.number == id || fault.name == id ||
         std::find(fault.also.begin(), fault.also.end(), id) != fault.also.end();
}

double given_value(const ParamDecl& argument, const FaultAct& act, double severity) {
  if (argument.kind != ParamKind::kQuantity && argument.kind != ParamKind::kCount)
    return act.severe;  // a choice is one, however severe
  return on_step(argument, between(act.mild, act.severe, severity, false));
}

Value changed_value(const ParamDecl& decl, const FaultChange& change, const Value& before,
                    double severity) {
  if (change.form == FaultChange::Form::kValue)
    return interpolated(decl, change.mild, change.severe, severity, change.by_ratio);
  const double size = between(change.mild.number, change.severe.number, severity, change.by_ratio);
  Value value = before;
  value.number = on_step(decl, change.form == FaultChange::Form::kFactor ? before.number * size
                                                                         : before.number + size);
  return value;
}

bool fits(const Fault& fault, const PartInstance& part) {
  if (fault.kind != part.kind) return false;
  const std::vector<ParamDecl>& params = part.kind->declaration.params;
  const bool there = std::all_of(fault.where.begin(), fault.where.end(), [&](const FaultNeed& n) {
    return same(part.values.at(params[n.param].name), n.value);
  });
  if (!there || !fault.acts.empty()) return there;
  return std::any_of(fault.changes.begin(), fault.changes.end(), [&](const FaultChange& c) {
    const Value& before = part.values.at(params[c.param].name);
    return !same(before, changed_value(params[c.param], c, before, 1));
  });
}

FaultBook::FaultBook(const Registry& registry, Mistakes& mistakes) {
  for (const auto& [name, kind] : registry.entries()) {
    for (const SheetText& text : kind.faults) {
      const std::optional<YamlNode> root = parse_yaml(text.text, text.path, mistakes.diagnostics());
      if (!root) continue;
      for (auto& fault : read_faults(*root, text.path, kind, mistakes)) all_.push_back(fault);
    }
  }
  std::stable_sort(all_.begin(), all_.end(), numbered_before);
}

std::shared_ptr<const Fault> FaultBook::find(std::string_view id,
                                             const Registry::Entry& kind) const {
  for (const auto& fault : all_) {
    if (fault->kind == &kind && goes_by(*fault, id)) return fault;
  }
  return nullptr;
}

}  // namespace sixty
