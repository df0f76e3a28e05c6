#include "sim/diagnose/report.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "sim/base/hash.hpp"
#include "sim/base/rng.hpp"
#include "sim/diagnose/likelihood.hpp"

namespace sixty::diagnose {
namespace {

using How = Observation::How;

enum Stream : std::uint32_t { kNotices, kTells, kAmount, kHowMuch, kWrong, kOrder, kChecks };

constexpr double kTellsAmount = 0.5, kOffBy = 0.25;
constexpr double kMeterOffBy = 0.03, kOverlooks = 0.02, kInvents = 0.002;
constexpr double kManyOf = 0.9;  // who sees nearly all says all
constexpr std::size_t kFewOf = 2;

/// As people tell it: in whole steps of what they notice, and large amounts in two digits.
double rounded(double amount, double notice) {
  double unit = notice;
  while (amount >= 100 * unit) unit *= 10;
  return std::max(std::round(amount / unit), 1.0) * unit;
}

bool is_lay(const Sign& sign) { return sign.sense != Sense::kMeasured; }

/// Draws one after another.
class Chance {
 public:
  Chance(std::uint64_t seed, std::uint64_t who) : seed_(seed), who_(who) {}
  double draw(Stream stream) { return uniform_draw(seed_, who_, stream, numbers_[stream]++); }

 private:
  std::uint64_t seed_, who_;
  std::map<Stream, std::uint64_t> numbers_;
};

/// What one person, or several together, make of a run.
class Reporter {
 public:
  Reporter(const Library& library, const std::vector<float>& departures, const Telling& telling,
           Chance chance)
      : library_(library),
        departures_(departures),
        telling_(telling),
        chance_(std::move(chance)),
        places_(places_of(*library.installation)) {}

  std::vector<Observation> tell() {
    tell_what_is_there();
    shuffle(there_);
    put_plainest_first();
    if (there_.size() > telling_.most) there_.resize(telling_.most);
    tell_what_is_right();
    shuffle(right_);
    for (const Observation& one : right_) {
      if (there_.size() < telling_.enough) there_.push_back(one);
    }
    be_human(1);
    return std::move(there_);
  }

  /// What they say when they are asked for one sign.
  std::vector<Observation> answer(const Sign& sign) {
    const std::vector<std::size_t> members = told_signs().at({sign.kind->name, sign.name});
    const std::vector<std::size_t> seen = noticed_of(members);
    if (seen.empty())
      there_.push_back(is_right(members));
    else
      put_together(members, seen);
    be_human(0);
    return std::move(there_);
  }

 private:
  using ByName = std::map<std::pair<std::string, std::string>, std::vector<std::size_t>>;

  double clear(std::size_t sign) const {
    return clearness(static_cast<double>(departures_[sign]), *library_.signs[sign].sign);
  }

  const std::string& part_of(std::size_t sign) const {
    return library_.installation->parts[library_.signs[sign].part].name;
  }

  std::string all_of_kind(const std::vector<std::size_t>& members) const {
    return "all " + library_.signs[members.front()].sign->kind->name;
  }

  /// Signs that anybody tells unasked, by kind of part and name.
  ByName told_signs() const {
    ByName all;
    for (std::size_t k = 0; k < library_.signs.size(); ++k) {
      const Sign& sign = *library_.signs[k].sign;
      if (is_lay(sign)) all[{sign.kind->name, sign.name}].push_back(k);
    }
    return all;
  }

  std::vector<std::size_t> noticed_of(const std::vector<std::size_t>& members) {
    std::vector<std::size_t> seen;
    for (const std::size_t k : members) {
      if (noticed(clear(k)) > chance_.draw(kNotices)) seen.push_back(k);
    }
    return seen;
  }

  void tell_what_is_there() {
    for (const auto& [name, members] : told_signs()) {
      const std::vector<std::size_t> seen = noticed_of(members);
      const bool tells = chance_.draw(kTells) < library_.signs[members.front()].sign->likely;
      if (!seen.empty() && tells) put_together(members, seen);
    }
    if (there_.empty()) complain();
  }

  /// Nobody is called without a complaint: what is told most readily of what is clear.
  void complain() {
    std::size_t best = library_.signs.size();
    double most = 0;
    for (std::size_t k = 0; k < library_.signs.size(); ++k) {
      const Sign& sign = *library_.signs[k].sign;
      const double weight = is_lay(sign) ? sign.likely * noticed(clear(k)) : 0;
      if (weight <= most) continue;
      most = weight;
      best = k;
    }
    if (best < library_.signs.size()) add(part_of(best), {best}, true);
  }

  /// Why somebody was called.
  void put_plainest_first() {
    const auto plainness = [this](const Observation& o) {
      const std::size_t k = o.which.front();
      return library_.signs[k].sign->likely * noticed(clear(k));
    };
    const auto plainest = std::max_element(
        there_.begin(), there_.end(),
        [&](const Observation& a, const Observation& b) { return plainness(a) < plainness(b); });
    if (plainest != there_.end()) std::iter_swap(there_.begin(), plainest);
  }

  void put_together(const std::vector<std::size_t>& members, std::vector<std::size_t> seen) {
    const auto share = static_cast<double>(seen.size()) / static_cast<double>(members.size());
    if (members.size() > 1 && share >= kManyOf) {
      add(all_of_kind(members), members, true);
      return;
    }
    for (const Place& place : places_) {
      if (place.kind != Place::Kind::kGroup) continue;
      const auto of_place =
          signs_at(place, library_.signs[members.front()].sign->name, library_.signs);
      const bool whole = of_place.size() > 1 &&
                         std::includes(seen.begin(), seen.end(), of_place.begin(), of_place.end());
      if (!whole) continue;
      add(place.name, of_place, true);
      std::vector<std::size_t> rest;
      std::set_difference(seen.begin(), seen.end(), of_place.begin(), of_place.end(),
                          std::back_inserter(rest));
      seen = std::move(rest);
    }
    if (seen.size() > kFewOf + 1) {
      add(all_of_kind(members), members, false);
      seen.resize(kFewOf);
    }
    for (const std::size_t k : seen) add(part_of(k), {k}, true);
  }

  void add(const std::string& place, const std::vector<std::size_t>& which, bool all) {
    Observation one = observation_at(place, which, library_.signs);
    one.all = all;
    const Sign& sign = *library_.signs[which.front()].sign;
    const bool counts = sign.sense == Sense::kSeen || sign.sense == Sense::kHeard;
    if (all && counts && !sign.by_share && chance_.draw(kAmount) < kTellsAmount) {
      double sum = 0;
      for (const std::size_t k : which)
        sum += std::max(clear(k), 0.0) * static_cast<double>(library_.usual[k].step);
      const double mean = sum / static_cast<double>(which.size());
      one.how = How::kAbout;
      one.amount = rounded(mean * (1 + kOffBy * (2 * chance_.draw(kHowMuch) - 1)), sign.notice);
    }
    there_.push_back(std::move(one));
  }

  /// What people say when they are asked what is still right.
  void tell_what_is_right() {
    for (const auto& [name, members] : told_signs()) {
      const Sign& sign = *library_.signs[members.front()].sign;
      if (sign.likely < 0.5) continue;
      const bool any = std::any_of(members.begin(), members.end(), [&](std::size_t k) {
        return clear(k) >= 0.5 || means_nothing(k, departures_, library_.signs);
      });
      if (!any) right_.push_back(is_right(members));
    }
  }

  Observation is_right(const std::vector<std::size_t>& members) const {
    Observation one =
        observation_at(members.size() > 1 ? all_of_kind(members) : part_of(members.front()),
                       members, library_.signs);
    one.how = How::kNot;
    return one;
  }

  /// Some of it is wrong or left out, though not the first `sure` things.
  void be_human(std::size_t sure) {
    std::vector<Observation> told;
    for (std::size_t k = 0; k < there_.size(); ++k) {
      Observation& one = there_[k];
      if (k < sure) {
        told.push_back(std::move(one));
        continue;
      }
      const double u = chance_.draw(kWrong);
      if (u < telling_.left_out) continue;
      if (u < telling_.left_out + telling_.wrong) invert(one);
      told.push_back(std::move(one));
    }
    there_ = std::move(told);
  }

  void shuffle(std::vector<Observation>& all) {
    for (std::size_t k = all.size(); k > 1; --k) {
      const auto other = static_cast<std::size_t>(chance_.draw(kOrder) * static_cast<double>(k));
      std::swap(all[k - 1], all[std::min(other, k - 1)]);
    }
  }

  const Library& library_;
  const std::vector<float>& departures_;
  const Telling& telling_;
  Chance chance_;
  std::vector<Place> places_;
  std::vector<Observation> there_, right_;
};

/// What is found at one sign that is looked for on purpose.
Observation found_at(const Library& library, const std::vector<float>& departures, std::size_t k,
                     std::uint64_t seed, std::uint64_t who) {
  const Sign& sign = *library.signs[k].sign;
  Observation one =
      observation_at(library.installation->parts[library.signs[k].part].name, {k}, library.signs);
  one.checked = true;
  Chance chance(seed, who ^ (k << 20));
  const auto departs = static_cast<double>(departures[k]);
  const Usual& usual = library.usual[k];
  if (sign.sense == Sense::kMeasured && !std::isnan(usual.number)) {
    const double number =
        static_cast<double>(usual.number) + departs * static_cast<double>(usual.step);
    one.how = How::kReads;
    if (sign.source.around > 0) {  // as the dial shows it
      one.amount = number - sign.source.around * std::floor(number / sign.source.around);
      return one;
    }
    one.amount = number * (1 + kMeterOffBy * (2 * chance.draw(kChecks) - 1));
    return one;
  }
  const bool there = clearness(departs, sign) >= 1;
  const bool mistaken = chance.draw(kChecks) < (there ? kOverlooks : kInvents);
  one.how = there != mistaken ? How::kThere : How::kNot;
  return one;
}

}  // namespace

std::vector<Observation> reports_of(const Library& library, const std::vector<float>& departures,
                                    const Telling& telling, std::uint64_t seed, std::uint64_t who) {
  return Reporter(library, departures, telling, Chance(seed, who)).tell();
}

std::vector<Observation> answers_of(const Library& library, const std::vector<float>& departures,
                                    const Sign& sign, const Telling& telling, std::uint64_t seed,
                                    std::uint64_t who) {
  return Reporter(library, departures, telling, Chance(seed, mix(who, hash_text(sign.name))))
      .answer(sign);
}

std::vector<Observation> found_by_check(const Library& library,
                                        const std::vector<float>& departures,
                                        const std::vector<std::size_t>& signs, std::uint64_t seed,
                                        std::uint64_t who) {
  std::vector<Observation> found;
  for (const std::size_t k : signs) {
    if (!means_nothing(k, departures, library.signs))
      found.push_back(found_at(library, departures, k, seed, who));
  }
  return found;
}

}  // namespace sixty::diagnose
