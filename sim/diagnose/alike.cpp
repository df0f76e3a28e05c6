#include "sim/diagnose/alike.hpp"

#include <numeric>

namespace sixty::diagnose {
namespace {

constexpr std::size_t kFewestPlaces = 3;
constexpr double kGolden = 0.618033988749895;  // spreads runs evenly, however many there are

/// The place whose part is read for that of place `at`, when `to` is read from a run with `from`.
std::size_t read_from(std::size_t at, std::size_t from, std::size_t to, std::size_t places) {
  if (at == to) return from;
  if (at < to) return at * from / to;
  return from + 1 + (at - to - 1) * (places - 1 - from) / (places - 1 - to);
}

}  // namespace

Alike::Alike(const Installation& installation, const std::vector<Suspect>& suspects,
             const std::vector<SignAt>& signs, std::size_t spans)
    : installation_(installation), suspects_(suspects), signs_(signs), spans_(spans) {
  find_places();
  for (std::size_t k = signs.size(); k-- > 0;) first_sign_[signs[k].part] = k;
  std::map<std::tuple<const Fault*, std::size_t, std::size_t>, Kin> some;
  std::vector<const Kin*> kin_of(suspects.size());
  for (std::size_t s = 0; s < suspects.size(); ++s) {
    const auto at = at_.find(suspects[s].part);
    if (at == at_.end()) continue;
    Kin& kin = some[{suspects[s].fault.get(), at->second.line, at->second.slot}];
    kin.push_back(s);
    kin_of[s] = &kin;
  }
  for (std::size_t s = 0; s < suspects.size(); ++s) {
    const bool whole =
        kin_of[s] != nullptr &&
        kin_of[s]->size() == installation.lines[at_.at(suspects[s].part).line].places.size();
    if (!whole)
      kin_.push_back({s});
    else if (kin_of[s]->front() == s)
      kin_.push_back(*kin_of[s]);
  }
  kin_of_.resize(suspects.size());
  for (std::size_t k = 0; k < kin_.size(); ++k) {
    for (const std::size_t suspect : kin_[k]) kin_of_[suspect] = k;
  }
}

bool Alike::is_uniform(const LaidLine& line) const {
  if (line.branches || line.places.size() < kFewestPlaces) return false;
  for (const std::vector<PartId>& place : line.places) {
    if (place.size() != line.places.front().size()) return false;
    for (std::size_t slot = 0; slot < place.size(); ++slot) {
      const PartInstance& one = installation_.parts[place[slot]];
      const PartInstance& first = installation_.parts[line.places.front()[slot]];
      if (one.kind != first.kind || one.sheet != first.sheet) return false;
    }
  }
  return true;
}

void Alike::find_places() {
  for (std::size_t line = 0; line < installation_.lines.size(); ++line) {
    if (!is_uniform(installation_.lines[line])) continue;
    const auto& places = installation_.lines[line].places;
    for (std::size_t place = 0; place < places.size(); ++place) {
      for (std::size_t slot = 0; slot < places[place].size(); ++slot)
        at_[places[place][slot]] = {line, place, slot};
    }
  }
}

std::size_t Alike::of_run(const Kin& kin, std::size_t number) {
  if (kin.size() < kFewestPlaces) return kin.front();
  const double along = kGolden * static_cast<double>(number + 1);
  const auto inner = static_cast<double>(kin.size() - 2);
  const double share = along - static_cast<double>(static_cast<std::size_t>(along));
  return kin[1 + static_cast<std::size_t>(share * inner)];
}

Transposed Alike::transpose(const At& from, const At& to) const {
  Transposed all(signs_.size() * spans_);
  std::iota(all.begin(), all.end(), 0U);
  const auto& places = installation_.lines[to.line].places;
  for (std::size_t at = 0; at < places.size(); ++at) {
    const std::size_t source = read_from(at, from.place, to.place, places.size());
    for (std::size_t slot = 0; slot < places[at].size(); ++slot) {
      const auto first = first_sign_.find(places[at][slot]);
      if (first == first_sign_.end()) continue;
      const std::size_t other = first_sign_.at(places[source][slot]);
      for (std::size_t k = first->second; k < signs_.size() && signs_[k].part == places[at][slot];
           ++k) {
        for (std::size_t span = 0; span < spans_; ++span)
          all[span * signs_.size() + k] =
              static_cast<std::uint32_t>(span * signs_.size() + other + k - first->second);
      }
    }
  }
  return all;
}

std::shared_ptr<const Transposed> Alike::transposed(std::size_t from, std::size_t to) {
  if (from == to) return nullptr;
  const At& a = at_.at(suspects_[from].part);
  const At& b = at_.at(suspects_[to].part);
  const auto [found, added] = known_.try_emplace({a.line, a.place, b.place});
  if (added) found->second = std::make_shared<const Transposed>(transpose(a, b));
  return found->second;
}

}  // namespace sixty::diagnose
