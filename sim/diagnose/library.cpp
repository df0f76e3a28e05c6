#include "sim/diagnose/library.hpp"

#include <algorithm>
#include <mutex>

#include "sim/diagnose/in_parallel.hpp"
#include "sim/diagnose/once.hpp"
#include "sim/run/circuits.hpp"

namespace sixty::diagnose {
namespace {

constexpr std::size_t kAtOnce = 8;  // tried in a row, so that threads do not decide
constexpr std::size_t kMostTried = 64;
constexpr std::size_t kMostWeeks = 3;     // that each is watched for
constexpr std::size_t kTransients = 700;  // in all weeks of one; some twenty seconds for all
constexpr double kGoesWrong = 3;          // steps of what is noticed
constexpr double kShows = 1.5, kToldSoon = 0.3;
constexpr double kNotLeftSo = 0.8;  // that nearly everybody tells
constexpr std::size_t kKeyframeBytes = 1u << 20;
constexpr double kEventsATransient = 1e4;  // that take as long as one

std::shared_ptr<const Installation> specimen_of(const LibraryPlan& plan, std::uint64_t number,
                                                std::uint64_t week, const Registry& registry) {
  SceneChanges changes = as_watched(plan);
  changes.specimen = Specimen{number, plan.vary, week};
  Diagnostics unheard;  // one whose parts do not go together is left out
  return load_scene(plan.path, registry, changes, unheard);
}

std::shared_ptr<const Installation> scene_as_it_stands(const Library& library,
                                                       const LibraryPlan& plan,
                                                       const Registry& registry) {
  Diagnostics unheard;  // as of specimens
  const auto scene = load_scene(plan.path, registry, as_watched(plan), unheard);
  return scene == nullptr ? library.installation : scene;
}

/// A session that has been watched, and keeps what it met.
std::shared_ptr<Session> watched(const std::shared_ptr<const Installation>& installation,
                                 const Library& library, std::vector<Sighting>& seen) {
  Session::Options options;
  options.keyframe_bytes = kKeyframeBytes;
  auto session = std::make_shared<Session>(installation, options);
  seen.push_back(watch(*session, library.signs, library.watch));
  session->keep_transients();
  return session;
}

/// Whether it goes otherwise than the scene's own in what nobody would leave so.
bool goes_wrong(const Sighting& seen, const Sighting& own, const std::vector<SignAt>& signs) {
  const std::vector<Usual> usual = usual_of({own}, signs);
  const std::vector<float> all = departures(seen, usual, signs);
  for (std::size_t k = 0; k < signs.size(); ++k) {
    const Sign& sign = *signs[k].sign;
    if (sign.likely >= kNotLeftSo && !sign.by_share &&
        clearness(static_cast<double>(all[k]), sign) >= kGoesWrong)
      return true;
  }
  return false;
}

bool go_wrong(const std::vector<Sighting>& seen, const Sighting& own,
              const std::vector<SignAt>& signs) {
  return std::any_of(seen.begin(), seen.end(), [&](const Sighting& one) {
    return one.failed || goes_wrong(one, own, signs);
  });
}

}  // namespace

SceneChanges as_watched(const LibraryPlan& plan) {
  SceneChanges changes = plan.changes;
  changes.sound = true;
  changes.begins_on = plan.begins_on;
  return changes;
}

Specimens specimens_of(const Library& library, const LibraryPlan& plan, std::uint64_t first,
                       std::size_t count, const Registry& registry) {
  Specimens found;
  // As people have it there: under other assumptions other times are asked for.
  const auto scene = scene_as_it_stands(library, plan, registry);
  std::vector<Sighting> own;
  auto plain = watched(scene, library, own);
  const std::size_t transients = std::max<std::size_t>(library.watch.transients, 1);
  const std::size_t weeks = std::clamp<std::size_t>(kTransients / transients, 1, kMostWeeks);
  const std::size_t at_once = std::min(kAtOnce, count);
  for (std::size_t tried = 0; tried < kMostTried && found.all.size() < count; tried += at_once) {
    std::vector<std::shared_ptr<const Installation>> some(at_once);
    std::vector<std::shared_ptr<Session>> sessions(at_once);
    std::vector<std::vector<Sighting>> seen(at_once);
    in_parallel(at_once, plan.threads, [&](std::size_t k) {
      for (std::uint64_t week = 0; week < weeks; ++week) {
        auto specimen = specimen_of(plan, first + tried + k, week, registry);
        if (specimen == nullptr) return;
        auto session = watched(specimen, library, seen[k]);
        if (week > 0) continue;
        some[k] = std::move(specimen);
        sessions[k] = std::move(session);
      }
    });
    for (std::size_t k = 0; k < at_once && found.all.size() < count; ++k) {
      if (some[k] == nullptr || go_wrong(seen[k], own.front(), library.signs)) continue;
      found.all.push_back(std::move(some[k]));
      found.sessions.push_back(std::move(sessions[k]));
      found.seen.push_back(std::move(seen[k]));
      found.numbers.push_back(first + tried + k);
    }
  }
  if (found.all.empty()) {
    found.all.push_back(scene);
    found.sessions.push_back(std::move(plain));
    found.seen.push_back(std::move(own));
    found.numbers.push_back(first);
  }
  return found;
}

bool anything_shows(const Library& library, const Shown& shown) {
  for (std::size_t k = 0; k < library.signs.size(); ++k) {
    const Sign& sign = *library.signs[k].sign;
    const bool told = sign.sense != Sense::kMeasured && sign.likely >= kToldSoon;
    if (told && clearness(static_cast<double>(shown[k]), sign) >= kShows) return true;
  }
  return false;
}

std::vector<Known> Specimens::known(const std::vector<Usual>& all_usual,
                                    const std::vector<SignAt>& signs) const {
  std::vector<Known> each;
  for (std::size_t k = 0; k < all.size(); ++k)
    each.push_back({all[k], usual_with(seen[k], all_usual, signs), sessions[k]});
  return each;
}

Bench::Bench(const Library& library, Known specimen)
    : library_(library), specimen_(std::move(specimen)) {
  if (specimen_.session != nullptr) return;
  std::vector<Sighting> unneeded;
  specimen_.session = watched(specimen_.installation, library_, unneeded);
}

Bench::~Bench() { specimen_.session->forget_later_transients(); }

std::vector<float> Bench::departures_with(const Suspect& suspect, const Manner& manner) {
  return departures_with({{suspect, manner}});
}

std::vector<float> Bench::departures_with(const std::vector<std::pair<Suspect, Manner>>& faults) {
  Session& session = *specimen_.session;
  session.forget_later_transients();
  const std::size_t before = session.transients_computed();
  session.replace_log(specimen_.installation->script);
  session.seek(-1);
  for (const auto& [suspect, manner] : faults) put_in(session, suspect, manner);
  const Sighting seen = watch_and_try(session, library_.signs, specimen_.usual, library_.watch);
  const std::size_t computed = session.transients_computed() - before;
  work_ = static_cast<double>(computed) + static_cast<double>(session.events()) / kEventsATransient;
  return departures(seen, specimen_.usual, library_.signs);
}

std::shared_ptr<Library> open_library(const LibraryPlan& plan, const Registry& registry,
                                      const SignBook& signs, const FaultBook& faults,
                                      Diagnostics& diagnostics) {
  auto library = std::make_shared<Library>();
  library->installation = load_scene(plan.path, registry, as_watched(plan), diagnostics);
  if (library->installation == nullptr) return nullptr;
  library->signs = signs_of(*library->installation, signs);
  library->circuits = circuits_of(*library->installation);
  library->suspects = suspects_of(*library->installation, faults);
  library->prior = prior_of(library->suspects);
  library->watch.until = plan.until;
  library->watch.visit = visit_to(*library->installation, signs.acts());
  return library;
}

void find_usual(Library& library, const LibraryPlan& plan, const Registry& registry) {
  plan_watch(library.installation, library.watch);
  const Specimens sound = specimens_of(library, plan, 0, plan.sound, registry);
  std::vector<Sighting> first;
  for (const std::vector<Sighting>& seen : sound.seen) first.push_back(seen.front());
  library.usual = usual_of(first, library.signs);
  library.specimens = sound.known(library.usual, library.signs);
  library.sound.clear();
  for (std::size_t k = 0; k < sound.seen.size(); ++k) {
    for (const Sighting& seen : sound.seen[k])
      library.sound.push_back(departures(seen, library.specimens[k].usual, library.signs));
  }
  library.simulations = library.sound.size();
}

void run_on_benches(const Library& library, const std::vector<Known>& specimens,
                    const std::vector<std::size_t>& numbers, std::size_t threads,
                    const std::function<void(std::size_t, Bench&)>& job, const OnProgress& told) {
  std::size_t done = 0;
  std::mutex speaking;
  in_parallel(specimens.size(), threads, [&](std::size_t specimen) {
    Bench bench(library, specimens[specimen]);
    for (const std::size_t number : numbers) {
      if (number % specimens.size() != specimen) continue;
      job(number, bench);
      const std::lock_guard lock(speaking);
      ++done;
      if (told) told(done, numbers.size());
    }
  });
}

}  // namespace sixty::diagnose
