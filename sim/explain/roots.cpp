#include "sim/explain/roots.hpp"

#include <algorithm>
#include <cmath>
#include <tuple>

#include "sim/base/math.hpp"
#include "sim/base/units.hpp"
#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::explain {
namespace {

/// A value of a part in two builds.
struct Changed {
  const ParamDecl* decl = nullptr;
  double ours = 0, sound = 0;
  std::string ours_text, sound_text;
  double size = 0;  ///< how much it is another

  Quantity quantity() const { return {decl->name, decl->unit, ours, sound}; }
};

std::string value_text(const ParamDecl& decl, const Value& value) {
  if (decl.kind == ParamKind::kQuantity) return spoken_quantity(value.number, decl.unit);
  if (decl.kind == ParamKind::kCount) return format_exact(value.number);
  if (decl.kind == ParamKind::kFlag) return value.number != 0 ? tr("yes") : tr("no");
  if (decl.kind == ParamKind::kChoice)
    return spoken_key(decl.choices.at(static_cast<std::size_t>(value.number)));
  if (!value.text.empty()) return value.text;
  const std::size_t entries = value.items.size() + value.records.size();
  return say_counted("{} entries", "{} entries", static_cast<std::int64_t>(entries));
}

bool same_records(const Value& a, const Value& b) {
  if (a.records.size() != b.records.size() || a.items.size() != b.items.size()) return false;
  for (std::size_t i = 0; i < a.records.size(); ++i) {
    for (std::size_t k = 0; k < a.records[i].size() && k < b.records[i].size(); ++k) {
      if (a.records[i][k].value.number != b.records[i][k].value.number) return false;
    }
  }
  return true;
}

double size_of(const Value& ours, const Value& sound) {
  const double a = std::fabs(ours.number);
  const double b = std::fabs(sound.number);
  if (a == b) return 1;
  if (a == 0 || b == 0) return 100;
  return std::fabs(det_log(a / b));
}

std::vector<Changed> changed(const PartInstance& ours, const PartInstance& sound) {
  std::vector<Changed> all;
  for (const ParamDecl& decl : ours.kind->declaration.params) {
    const Value& a = ours.values.at(decl.name);
    const Value& b = sound.values.at(decl.name);
    if (a.number == b.number && same_records(a, b)) continue;
    Changed one = {&decl, a.number, b.number, value_text(decl, a), value_text(decl, b), 0};
    one.size = size_of(a, b);
    if (decl.kind == ParamKind::kQuantity)
      std::tie(one.ours_text, one.sound_text) = both_texts(a.number, b.number, decl.unit);
    all.push_back(std::move(one));
  }
  return all;
}

constexpr std::size_t kMostValues = 3;  // told in one sentence

std::string text_of(const std::vector<Changed>& values) {
  std::string text;
  for (std::size_t k = 0; k < std::min(values.size(), kMostValues); ++k) {
    if (k > 0) text += "; ";
    text += say("{} is {}, {} when sound", spoken_key(values[k].decl->name), values[k].ours_text,
                values[k].sound_text);
  }
  const std::size_t more = values.size() - std::min(values.size(), kMostValues);
  if (more == 0) return text;
  return text + "; " + say_counted("and {} more", "and {} more", static_cast<std::int64_t>(more));
}

}  // namespace

bool Roots::differs(PartId part) const {
  return !changed(ours_.build().parts[part], sound_.build().parts[part]).empty();
}

std::optional<Link> Roots::behind(PartId part, SimTime at) const {
  if (std::optional<Link> own = at_part(part, at)) return own;
  for (const PartId other : neighbours(part)) {
    if (std::optional<Link> root = at_part(other, at)) return root;
  }
  return std::nullopt;
}

std::optional<Link> Roots::at_part(PartId part, SimTime at) const {
  std::optional<Link> value = value_of(part, at);
  return value ? value : hand_at(part, at);
}

std::optional<Link> Roots::value_of(PartId part, SimTime at) const {
  std::vector<Changed> all = changed(ours_.build().parts[part], sound_.build().parts[part]);
  if (all.empty()) return std::nullopt;
  std::stable_sort(all.begin(), all.end(),
                   [](const Changed& a, const Changed& b) { return a.size > b.size; });
  Link link = quantity_link(Link::What::kValue, at, part, all.front().quantity());
  // Which of several it hangs on, only runs would tell: half a millimetre of a pendulum's length
  // makes a minute a week, a third of its quality next to nothing.
  for (std::size_t k = 1; k < all.size(); ++k) link.also.push_back(all[k].quantity());
  link.text = say("{} is not as it was: {}.", name(part), text_of(all));
  return link;
}

std::optional<Link> Roots::hand_at(PartId part, SimTime at) const {
  const auto hand = std::find_if(hands_.rbegin(), hands_.rend(),
                                 [&](const Deed& h) { return h.part == part && h.at <= at; });
  if (hand == hands_.rend()) return std::nullopt;
  Link link;
  link.what = Link::What::kHand;
  link.at = hand->at;
  link.part = part;
  link.quantity = std::string(hand->kind);
  link.measured = hand->value;
  link.text = say("A hand was at {} at {}: {}.", name(part),
                  when_text(ours_.installation(), hand->at), spoken_key(std::string(hand->kind)));
  return link;
}

std::vector<PartId> Roots::neighbours(PartId part) const {
  const std::vector<PartInstance>& parts = ours_.installation().parts;
  std::vector<PartId> all;
  for (PartId p = 0; p < parts.size(); ++p) {
    for (const auto& takers : parts[p].takers) {
      const bool takes = std::any_of(takers.begin(), takers.end(),
                                     [part](const auto& taker) { return taker.first == part; });
      if (takes) all.push_back(p);
    }
  }
  for (const auto& riders : parts[part].riders) {
    for (const Rider& rider : riders) all.push_back(rider.part);
  }
  return all;
}

}  // namespace sixty::explain
