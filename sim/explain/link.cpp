#include "sim/explain/link.hpp"

#include <utility>

#include "sim/words/spoken.hpp"
#include "sim/words/words.hpp"

namespace sixty::explain {

Link quantity_link(Link::What what, SimTime at, PartId part, Quantity quantity) {
  return {what,
          at,
          part,
          std::move(quantity.name),
          std::move(quantity.unit),
          quantity.measured,
          quantity.expected,
          "",
          {}};
}

bool ends_at_root(const std::vector<Link>& links) {
  if (links.empty()) return false;
  const Link::What end = links.back().what;
  return end == Link::What::kValue || end == Link::What::kHand;
}

const char* name_of(Link::What what) {
  switch (what) {
    case Link::What::kDeed:
      return "deed";
    case Link::What::kContact:
      return "contact";
    case Link::What::kVolts:
      return "volts";
    case Link::What::kNeed:
      return "need";
    case Link::What::kDrop:
      return "drop";
    case Link::What::kDraws:
      return "draws";
    case Link::What::kCondition:
      return "condition";
    case Link::What::kReading:
      return "reading";
    case Link::What::kValue:
      return "value";
    default:
      return "hand";
  }
}

std::string value_text(double value, const NamedDecl& reading) {
  if (reading.unit.empty()) return value != 0 ? tr("yes") : tr("no");
  return spoken_number(told_text(value, reading.unit, reading.told));
}

std::pair<std::string, std::string> both_texts(double ours, double sound, const std::string& unit) {
  const std::string a = spoken_quantity(ours, unit);
  const std::string b = spoken_quantity(sound, unit);
  const bool has_zero = unit != "K" && (ours == 0) != (sound == 0);
  const auto nothing_like = [](const std::string& other) {
    const std::size_t space = other.find(' ');
    return space == std::string::npos ? std::string("0") : "0" + other.substr(space);
  };
  if (!has_zero) return {a, b};
  return {ours == 0 ? nothing_like(b) : a, sound == 0 ? nothing_like(a) : b};
}

std::string when_text(const Installation& scene, SimTime t) {
  return spoken_instant(scene.clock, t, 2);
}

}  // namespace sixty::explain
