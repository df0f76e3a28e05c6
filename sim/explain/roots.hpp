#pragma once

#include <optional>
#include <vector>

#include "sim/explain/deeds.hpp"
#include "sim/explain/link.hpp"

namespace sixty::explain {

/// What is behind it that a part goes otherwise than in a sound installation: a value of its own
/// that is another now, or a hand that was at it.
class Roots {
 public:
  /// `hands`: what hands did in the run that is looked at, and not in the other; must outlive this.
  Roots(const Session& looked_at, const Session& sound, const std::vector<Deed>& hands)
      : ours_(looked_at), sound_(sound), hands_(hands) {}
  /// Whether a value of it is another, at the moment at which the sessions stand.
  bool differs(PartId part) const;
  /// At that part, or else where it takes something from, or what rides on it.
  std::optional<Link> behind(PartId part, SimTime at) const;

 private:
  std::optional<Link> at_part(PartId part, SimTime at) const;
  std::optional<Link> value_of(PartId part, SimTime at) const;
  std::optional<Link> hand_at(PartId part, SimTime at) const;
  std::vector<PartId> neighbours(PartId part) const;
  const std::string& name(PartId part) const { return ours_.installation().parts[part].name; }

  const Session& ours_;
  const Session& sound_;
  const std::vector<Deed>& hands_;
};

}  // namespace sixty::explain
