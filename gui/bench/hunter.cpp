#include "gui/bench/hunter.hpp"

#include <fmt/format.h>

#include "sim/diagnose/hidden.hpp"
#include "sim/diagnose/report.hpp"
#include "sim/diagnose/urgency.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

using namespace diagnose;

enum Job { kMake, kWeigh, kLook };

constexpr std::size_t kMostChecks = 6, kMostQuestions = 3;
constexpr std::uint64_t kSeed = 1;  // of who looks and who reports

/// Nobody wants it any more.
struct Ended {};

std::string names_of(const std::vector<Injection>& faults) {
  std::string names;
  for (const Injection& one : faults)
    names += fmt::format("{}@{}:{} ", one.fault->number, one.part, one.severity);
  return names;
}

std::shared_ptr<const Hunter::Form> form_of(const Library& library, Mistakes& mistakes) {
  const Installation& scene = *library.installation;
  const CircumstanceBook circumstances(scene.circumstances, mistakes);
  std::vector<std::string> places;
  for (const diagnose::Place& place : places_of(scene)) places.push_back(place.name);
  return std::make_shared<const Hunter::Form>(Hunter::Form{
      library.installation, library.signs, library.watch, SignSearch(scene, library.signs),
      circumstances.names(false), circumstances.names(true), std::move(places)});
}

}  // namespace

Hunter::Hunter(const Registry& registry, LibraryPlan plan, std::string cache)
    : registry_(registry), plan_(std::move(plan)), cache_(std::move(cache)) {
  maker_.give(kMake, [this] { make(); });
}

Hunter::~Hunter() { *ends_ = true; }

void Hunter::make() {
  try {
    make_library();
  } catch (const Ended&) {
    return;
  } catch (const std::exception& error) {
    change([&](Told& told) {
      told.stage = Stage::kFailed;
      told.failure = error.what();
    });
  }
}

void Hunter::make_library() {
  Diagnostics mistakes;
  Mistakes reading(mistakes);
  books_ = std::make_unique<const Books>(registry_, reading);
  const auto library = open_library(plan_, registry_, books_->signs, books_->faults, mistakes);
  if (!mistakes.empty() || library == nullptr) {
    change([&](Told& told) {
      told.stage = Stage::kFailed;
      told.failure = mistakes.to_text();
    });
    return;
  }
  library->watch.each_hour = [ends = ends_] {
    if (*ends) throw Ended{};
  };
  std::shared_ptr<const Form> form = form_of(*library, reading);
  change([&](Told& told) { told.form = std::move(form); });
  const Shelf shelf(cache_);
  const bool reused = shelf.find(*library, plan_);
  std::string not_kept;
  if (!reused) {
    fill(library);
    if (!shelf.keep(*library, plan_, not_kept))
      not_kept = say("It could not be kept: {}", not_kept);
  }
  change([&](Told& told) {
    told.reused = reused;
    told.failure = not_kept;
  });
  take(library, true);
}

/// Of the maker's: what was asked is weighed with it.
void Hunter::take(std::shared_ptr<const Library> library, bool ready) {
  change([&](Told& told) {
    told.library = std::move(library);
    if (ready) told.stage = Stage::kReady;
  });
  weigh_anew();
}

void Hunter::fill(const std::shared_ptr<Library>& library) {
  change([](Told& told) { told.stage = Stage::kSound; });
  find_usual(*library, plan_, registry_);
  change([](Told& told) { told.stage = Stage::kFaults; });
  Early early;
  early.urgency = urgency_of(*library, asked_now());
  early.told = [this](const Library& so_far) {
    take(std::make_shared<const Library>(so_far), false);
  };
  const auto progress = [this](std::size_t done, std::size_t all) {
    if (*ends_) throw Ended{};
    change([&](Told& told) {
      told.done = done;
      told.all = all;
    });
  };
  fill_library(*library, plan_, progress, early);
}

std::vector<Observation> Hunter::asked_now() const {
  const std::lock_guard lock(mutex_);
  return asked_for_;
}

void Hunter::weigh(std::vector<Observation> observations) {
  {
    const std::lock_guard lock(mutex_);
    asked_for_ = std::move(observations);
  }
  weigh_anew();
}

void Hunter::weigh_anew() {
  const std::lock_guard lock(asking_);
  const std::uint64_t number = ++asked_;
  std::vector<Observation> observations = asked_now();
  if (!is_any_looked_at(observations)) {
    weigher_.drop(kWeigh);
    change([](Told& told) { told.verdict = nullptr; });
    return;
  }
  weigher_.give(kWeigh, [this, number, observations = std::move(observations)] {
    answer(observations, number);
  });
}

/// The ranking is told before the checks are weighed, which takes longer.
void Hunter::answer(const std::vector<Observation>& observations, std::uint64_t number) {
  const Told now = told();
  const auto& library = now.library;
  if (library == nullptr || number != asked_) return;
  Verdict verdict;
  verdict.library = library;
  verdict.provisional = now.stage != Stage::kReady;
  verdict.observations = observations;
  verdict.ranking = rank(*library, observations, {});
  publish(verdict, number);
  if (number != asked_ || *ends_) return;
  verdict.checks =
      next_checks(*library, verdict.ranking, observations, books_->checks, kMostChecks);
  if (number != asked_ || *ends_) return;
  verdict.questions =
      next_questions(*library, verdict.ranking, observations, books_->checks, kMostQuestions);
  verdict.has_next = true;
  publish(verdict, number);
}

void Hunter::publish(const Verdict& verdict, std::uint64_t number) {
  auto shared = std::make_shared<const Verdict>(verdict);
  change([&](Told& told) {
    if (number == asked_) told.verdict = std::move(shared);
  });
}

void Hunter::look(std::uint64_t number, Look how, std::vector<std::size_t> signs,
                  std::vector<Injection> hidden) {
  maker_.give(kLook, [this, number, how, signs = std::move(signs), hidden = std::move(hidden)] {
    try {
      go_and_look(number, how, signs, hidden);
    } catch (const Ended&) {
      return;
    }
  });
}

void Hunter::go_and_look(std::uint64_t number, Look how, const std::vector<std::size_t>& signs,
                         const std::vector<Injection>& hidden) {
  const auto library = told().library;
  if (library == nullptr) return;
  if (const std::string names = names_of(hidden); names != watched_) {
    shown_ = noticed_with(*library, hidden);
    watched_ = names;
  }
  std::vector<Observation> seen;
  if (how == Look::kReports) seen = reports_of(*library, shown_, {}, kSeed, 0);
  if (how == Look::kChecked) seen = found_by_check(*library, shown_, signs, kSeed, number);
  if (how == Look::kAsked)
    seen = answers_of(*library, shown_, *library->signs[signs.front()].sign, {}, kSeed, 0);
  change([&](Told& told) {
    told.look = number;
    told.seen = std::move(seen);
  });
}

Hunter::Told Hunter::told() const {
  const bool busy = maker_.is_busy() || weigher_.is_busy();
  const std::lock_guard lock(mutex_);
  Told told = told_;
  told.busy = busy;
  return told;
}

}  // namespace sixty::gui
