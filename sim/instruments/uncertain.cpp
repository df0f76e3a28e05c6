#include "sim/instruments/uncertain.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "sim/words/words.hpp"

namespace sixty::instruments {
namespace {

struct Prefix {
  const char* name;
  double factor;
};

constexpr std::array<Prefix, 5> kPrefixes = {
    {{"M", 1e6}, {"k", 1e3}, {"", 1}, {"m", 1e-3}, {"u", 1e-6}}};

constexpr double kMostUncertain = 99.5;

/// Units that bear a prefix.
bool takes_prefix(const std::string& unit) {
  return unit == "V" || unit == "A" || unit == "ohm" || unit == "s" || unit == "m" ||
         unit == "Wb" || unit == "J" || unit == "N";
}

Prefix prefix_for(double value, double uncertainty, const std::string& unit) {
  const double size = std::max(std::fabs(value), uncertainty);
  if (!takes_prefix(unit)) return kPrefixes[2];
  for (const Prefix& p : kPrefixes) {
    // An uncertainty of three digits would pretend to one too many.
    if (size >= p.factor || uncertainty >= kMostUncertain * p.factor / 1000) return p;
  }
  return kPrefixes.back();
}

/// Decimals that leave two digits of an uncertainty.
int decimals_of(double uncertainty) {
  int decimals = 0;
  for (double u = uncertainty; u < 9.95 && decimals < 9; u *= 10) ++decimals;
  return decimals;
}

}  // namespace

std::string uncertain(double value, double uncertainty, const std::string& unit) {
  const Prefix prefix = prefix_for(value, uncertainty, unit);
  const double u = uncertainty / prefix.factor;
  const int decimals = decimals_of(u);
  std::string shown = fmt::format("{:.{}f}", value / prefix.factor, decimals);
  if (shown.find_first_not_of("-0.") == std::string::npos && shown[0] == '-') shown.erase(0, 1);
  return spoken_number(fmt::format("({} ± {:.{}f}) {}{}", shown, u, decimals, prefix.name, unit));
}

std::string uncertainty_text(double uncertainty, const std::string& unit) {
  const Prefix prefix = prefix_for(uncertainty, uncertainty, unit);
  const double u = uncertainty / prefix.factor;
  return spoken_number(fmt::format("± {:.{}f} {}{}", u, decimals_of(u), prefix.name, unit));
}

}  // namespace sixty::instruments
