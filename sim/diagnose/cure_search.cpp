#include "sim/diagnose/cure_search.hpp"

#include <algorithm>
#include <numeric>
#include <utility>

#include "sim/diagnose/outlook.hpp"

namespace sixty::diagnose {

std::vector<Left> split(const Left& left, const std::vector<std::size_t>& outcome) {
  std::map<std::size_t, Left> parts;
  for (const std::size_t k : left) parts[outcome[k]].push_back(k);
  std::vector<Left> all;
  for (auto& [which, part] : parts) all.push_back(std::move(part));
  return all;
}

Left without(const Left& left, std::size_t place) {
  Left rest = left;
  rest.erase(rest.begin() + static_cast<std::ptrdiff_t>(place));
  return rest;
}

CureSearch::CureSearch(std::vector<double> beliefs, std::vector<Splitting> splittings)
    : beliefs_(std::move(beliefs)), splittings_(std::move(splittings)) {}

Left CureSearch::everybody() const {
  Left all(beliefs_.size());
  std::iota(all.begin(), all.end(), 0U);
  return all;
}

double CureSearch::weight(const Left& left) const {
  double sum = 0;
  for (const std::size_t k : left) sum += beliefs_[k];
  return sum;
}

double CureSearch::share(const Left& part, const Left& left) const {
  return weight(part) / weight(left);
}

double CureSearch::at_first_min(const Left& left, double rest_min) const {
  return share(without(left, 0), left) * (kWrongPlace_min + rest_min);
}

double CureSearch::least_min(const Left& left) {
  if (left.size() < 2) return 0;
  if (const auto found = least_.find(left); found != least_.end()) return found->second;
  double least = at_first_min(left, least_min(without(left, 0)));
  for (std::size_t place = 1; place < left.size(); ++place) {
    const Left rest = without(left, place);
    least = std::min(least, share(rest, left) * (kWrongPlace_min + least_min(rest)));
  }
  for (const Splitting& one : splittings_) {
    const std::vector<Left> parts = split(left, one.outcome);
    if (parts.size() < 2) continue;
    double looked = one.cost_min;
    for (const Left& part : parts) looked += share(part, left) * least_min(part);
    least = std::min(least, looked);
  }
  return least_[left] = least;
}

double CureSearch::in_order_min(const Left& left, const std::vector<std::size_t>& order,
                                std::size_t next) const {
  if (left.size() < 2) return 0;
  if (next == order.size()) return at_first_min(left, in_order_min(without(left, 0), order, next));
  const Splitting& one = splittings_[order[next]];
  double sum = one.cost_min;
  for (const Left& part : split(left, one.outcome))
    sum += share(part, left) * in_order_min(part, order, next + 1);
  return sum;
}

}  // namespace sixty::diagnose
