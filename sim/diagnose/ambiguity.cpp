#include "sim/diagnose/ambiguity.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "sim/diagnose/likelihood.hpp"

namespace sixty::diagnose {
namespace {

constexpr double kClearly = 2, kFaintly = 0.5;  // steps of what is noticed

/// What shows clearly in a run, and what may show; a bit for each sign.
struct Traits {
  std::vector<bool> clearly, perhaps;
  bool anything = false;
};

Traits traits_of(const Library& library, const Shown& run) {
  Traits traits;
  for (std::size_t k = 0; k < library.signs.size(); ++k) {
    const double clear = clearness(static_cast<double>(run[k]), *library.signs[k].sign);
    traits.clearly.push_back(clear >= kClearly);
    traits.perhaps.push_back(clear >= kFaintly);
    traits.anything = traits.anything || clear >= kClearly;
  }
  return traits;
}

/// Whether what shows clearly in the one may be there in the other, and the other way round.
bool same(const Traits& a, const Traits& b) {
  for (std::size_t k = 0; k < a.clearly.size(); ++k) {
    if ((a.clearly[k] && !b.perhaps[k]) || (b.clearly[k] && !a.perhaps[k])) return false;
  }
  return true;
}

bool covers(const std::vector<Traits>& a, const std::vector<Traits>& b) {
  return std::all_of(a.begin(), a.end(), [&](const Traits& x) {
    return !x.anything ||
           std::any_of(b.begin(), b.end(), [&](const Traits& y) { return same(x, y); });
  });
}

std::size_t root_of(std::vector<std::size_t>& parent, std::size_t k) {
  while (parent[k] != k) k = parent[k];
  return k;
}

constexpr double kAsMuch = 0.7;  // ratio of departures, as a natural logarithm

bool as_much(double a, double b) { return std::fabs(in_ratios(a) - in_ratios(b)) <= kAsMuch; }

/// Whether whatever is looked for shows as much in the one as in the other.
bool alike(const Library& library, const Shown& a, const Shown& b) {
  for (std::size_t k = 0; k < library.signs.size(); ++k) {
    if (a[k] != b[k] && !as_much(static_cast<double>(a[k]), static_cast<double>(b[k])))
      return false;
  }
  return true;
}

}  // namespace

std::vector<bool> cannot_be_told_from(const Library& library,
                                      const std::vector<float>& departures) {
  std::vector<bool> all(library.suspects.size());
  for (std::size_t k = 0; k < library.cases.size(); ++k) {
    const std::size_t suspect = library.cases[k].suspect;
    if (!all[suspect] && library.run_of(k).shows && alike(library, library.shown_in(k), departures))
      all[suspect] = true;
  }
  return all;
}

std::vector<std::size_t> groups_of(const Library& library) {
  const std::size_t count = library.suspects.size();
  std::vector<std::vector<Traits>> shown(count);
  for (std::size_t k = 0; k < library.cases.size(); ++k)
    shown[library.cases[k].suspect].push_back(traits_of(library, library.shown_in(k)));
  std::vector<std::size_t> parent(count);
  std::iota(parent.begin(), parent.end(), 0);
  const auto anything = [&](std::size_t k) {
    return std::any_of(shown[k].begin(), shown[k].end(),
                       [](const Traits& s) { return s.anything; });
  };
  for (std::size_t a = 0; a < count; ++a) {
    if (!anything(a)) continue;
    for (std::size_t b = a + 1; b < count; ++b) {
      if (anything(b) && covers(shown[a], shown[b]) && covers(shown[b], shown[a]))
        parent[root_of(parent, b)] = root_of(parent, a);
    }
  }
  std::vector<std::size_t> groups;
  for (std::size_t k = 0; k < count; ++k) groups.push_back(root_of(parent, k));
  return groups;
}

}  // namespace sixty::diagnose
