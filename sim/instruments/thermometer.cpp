#include "sim/instruments/thermometer.hpp"

#include "sim/base/math.hpp"
#include "sim/instruments/uncertainty.hpp"
#include "sim/scene/mistakes.hpp"

namespace sixty::instruments {
namespace {

constexpr const char* kTemperature = "temperature";

std::optional<Thermometer::Place> own_place(const Installation& installation, PartId part) {
  const std::vector<NamedDecl>& readings = installation.parts[part].kind->declaration.readings;
  const std::size_t reading = index_of(readings, kTemperature);
  if (reading == readings.size() || readings[reading].unit != "K") return std::nullopt;
  return Thermometer::Place{part, reading};
}

bool gives_air_to(const PartInstance& giver, const Installation& installation, PartId part) {
  const std::vector<LinkDecl>& taken = installation.parts[part].kind->declaration.taken;
  for (const auto& takers : giver.takers) {
    for (const auto& [taker, link] : takers) {
      if (taker == part && taken[link].kind == Surroundings::kKind) return true;
    }
  }
  return false;
}

}  // namespace

std::optional<Thermometer::Place> Thermometer::place_of(const Installation& installation,
                                                        PartId part) {
  if (const auto own = own_place(installation, part)) return own;
  for (PartId p = 0; p < installation.parts.size(); ++p) {
    if (gives_air_to(installation.parts[p], installation, part)) return own_place(installation, p);
  }
  return std::nullopt;
}

void Thermometer::follow(double temperature_k, double seconds) {
  shown_k_ = temperature_k + (shown_k_ - temperature_k) * det_exp(-seconds / kLag_s);
}

double Thermometer::shown_k(std::uint64_t seed) const {
  return to_step(shown_k_ + kLimit_k * own_error(seed, kTemperature), kStep_k);
}

double Thermometer::uncertainty_k() { return expanded_uncertainty({kLimit_k, kStep_k / 2}); }

}  // namespace sixty::instruments
