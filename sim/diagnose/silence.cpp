#include "sim/diagnose/silence.hpp"

#include <algorithm>
#include <map>

#include "sim/base/math.hpp"

namespace sixty::diagnose {
namespace {

using How = Observation::How;

constexpr double kToldAtAll = 0.25;  // likelier than that, or nothing follows from silence

}  // namespace

Silence::Silence(const Library& library, const std::vector<Observation>& observations,
                 const Vagueness& vagueness)
    : library_(library), vagueness_(vagueness) {
  std::map<const Sign*, std::size_t> at;
  for (std::size_t k = 0; k < library.signs.size(); ++k) {
    const Sign& sign = *library.signs[k].sign;
    if (sign.sense == Sense::kMeasured || sign.likely < kToldAtAll) continue;
    const auto [found, added] = at.emplace(&sign, themes_.size());
    if (added) {
      themes_.emplace_back();
      themes_.back().likely = sign.likely;
    }
    themes_[found->second].signs.push_back(k);
  }
  for (Theme& theme : themes_) theme.unnamed = theme.signs;
  for (const Observation& o : observations) {
    const auto found = at.find(library.signs[o.which.front()].sign);
    if (found == at.end()) continue;
    Theme& theme = themes_[found->second];
    theme.mentioned = true;
    theme.unseen = theme.unseen || !o.is_looked_at();
    theme.told = theme.told || (!o.checked && o.is_there());
    theme.everywhere = theme.everywhere || !o.all;
    for (const std::size_t k : o.which) std::erase(theme.unnamed, k);
  }
  told_ = static_cast<double>(
      std::count_if(themes_.begin(), themes_.end(), [](const Theme& t) { return t.told; }));
}

double Silence::most_clear(const std::vector<std::size_t>& signs, const Shown& shown) const {
  double most = 0;
  for (const std::size_t k : signs) {
    const auto departs = static_cast<double>(shown[k]);
    if (departs == 0) continue;
    most = std::max(most, noticed(clearness(departs, *library_.signs[k].sign)));
  }
  return most;
}

double Silence::chance(const Shown& shown) const {
  std::vector<double> tells;
  double many = 0;
  for (const Theme& theme : themes_) {
    tells.push_back(theme.likely * most_clear(theme.signs, shown));
    many += tells.back();
  }
  const double room = std::max(vagueness_.most_told, told_);
  const double kept = many > room ? room / many : 1;
  double chance = det_exp(told_ * det_log(kept));
  for (std::size_t t = 0; t < themes_.size(); ++t) {
    const Theme& theme = themes_[t];
    if (!theme.mentioned) chance *= 1 - vagueness_.told * tells[t] * kept;
    if (theme.told && !theme.everywhere && !theme.unseen)
      chance *= 1 - vagueness_.others * most_clear(theme.unnamed, shown);
  }
  return chance;
}

}  // namespace sixty::diagnose
