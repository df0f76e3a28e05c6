#include "sim/diagnose/suspect.hpp"

#include <algorithm>
#include <map>

#include "sim/base/rng.hpp"

namespace sixty::diagnose {
namespace {

enum SeverityStream : std::uint32_t { kSeverity, kBegins, kFrom, kComesAndGoes };

constexpr double kBeginsLater = 0.3, kComes = 0.25;  // shares of the manners (judgement)
constexpr double kShareOfTime = 0.3;
constexpr SimTime kStarted = 10 * kMinute;
constexpr SimTime kEachTime = 20 * kMinute;

/// When it begins if it is there from the start on: what hands do, they do when all goes.
SimTime from_the_start(const Fault& fault) { return fault.acts.empty() ? 0 : kStarted; }

bool may_come_and_go(const Fault& fault) {
  return has_degrees(fault) && fault.acts.empty() && fault.course.kind == Course::Kind::kSteady;
}

void come_and_go(Manner& manner) {
  manner.course.kind = Course::Kind::kRandom;
  manner.course.amount = kShareOfTime;
  manner.course.span = kEachTime;
}

}  // namespace

std::vector<Suspect> suspects_of(const Installation& installation, const FaultBook& book) {
  std::vector<Suspect> suspects;
  for (const auto& fault : book.all()) {
    for (PartId part = 0; part < installation.parts.size(); ++part) {
      if (installation.parts[part].kind == fault->kind && fits(*fault, installation.parts[part]))
        suspects.push_back({fault, part});
    }
  }
  return suspects;
}

std::vector<double> prior_of(const std::vector<Suspect>& suspects) {
  std::map<std::string, double> places;
  for (const Suspect& suspect : suspects) places[suspect.fault->number] += 1;
  std::vector<double> prior;
  prior.reserve(suspects.size());
  double sum = 0;
  for (const Suspect& suspect : suspects) {
    prior.push_back(prior_weight(suspect.fault->how_often) / places.at(suspect.fault->number));
    sum += prior.back();
  }
  for (double& p : prior) p /= sum;
  return prior;
}

bool has_degrees(const Fault& fault) {
  const auto differs = [](const FaultChange& c) {
    return c.mild.number < c.severe.number || c.severe.number < c.mild.number ||
           c.severe.items.size() > 1 || !c.severe.records.empty();
  };
  const auto more = [](const FaultAct& a) {
    return a.mild < a.severe || a.severe < a.mild || a.least_times < a.most_times;
  };
  return std::any_of(fault.changes.begin(), fault.changes.end(), differs) ||
         std::any_of(fault.acts.begin(), fault.acts.end(), more);
}

Manner drawn_manner(const Fault& fault, SimTime until, std::uint64_t seed, std::uint64_t who,
                    double largest) {
  const auto draw = [&](SeverityStream stream) { return uniform_draw(seed, who, stream, 0); };
  Manner manner;
  manner.course = fault.course;
  manner.severity = has_degrees(fault) ? largest * draw(kSeverity) : fault.typical;
  manner.from = from_the_start(fault);
  if (draw(kBegins) < kBeginsLater)
    manner.from = static_cast<SimTime>(draw(kFrom) * 0.5 * static_cast<double>(until));
  if (may_come_and_go(fault) && draw(kComesAndGoes) < kComes) come_and_go(manner);
  return manner;
}

std::vector<Manner> manners_of(const Fault& fault, std::size_t count, double least, SimTime until,
                               std::uint64_t seed, std::uint64_t who) {
  std::vector<Manner> manners;
  const std::size_t others = count / 2, steady = count - others;
  for (std::size_t k = 0; k < count; ++k) {
    const auto draw = [&](SeverityStream stream) { return uniform_draw(seed, who, stream, k); };
    Manner manner;
    manner.course = fault.course;
    manner.severity = fault.typical;
    manner.from = from_the_start(fault);
    if (has_degrees(fault)) {
      const std::size_t place = k < steady ? k : k - steady, of = k < steady ? steady : others;
      const double along =
          (static_cast<double>(place) + 0.1 + 0.8 * draw(kSeverity)) / static_cast<double>(of);
      manner.severity = least + (1 - least) * along;
    }
    if (k >= steady && (k - steady) % 2 == 0 && may_come_and_go(fault))
      come_and_go(manner);
    else if (k >= steady)
      manner.from = static_cast<SimTime>(draw(kFrom) * 0.5 * static_cast<double>(until));
    manners.push_back(manner);
  }
  return manners;
}

bool is_steady(const Fault& fault, const Manner& manner) {
  return has_degrees(fault) && manner.from == from_the_start(fault) &&
         manner.course.kind == fault.course.kind;
}

bool put_in(Session& session, const Suspect& suspect, const Manner& manner) {
  auto injection = std::make_shared<Injection>();
  injection->fault = suspect.fault;
  injection->part = suspect.part;
  injection->severity = std::max(manner.severity, 0.01);
  injection->course = manner.course;
  Action action;
  action.at = manner.from;
  action.part = suspect.part;
  action.fault = std::move(injection);
  action.added = true;
  return session.act(std::move(action));
}

}  // namespace sixty::diagnose
