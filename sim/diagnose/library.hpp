#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "sim/diagnose/departure.hpp"
#include "sim/diagnose/suspect.hpp"
#include "sim/scene/loader.hpp"

namespace sixty::diagnose {

struct Library;

/// One simulated run with a fault in it.
struct Run {
  std::size_t suspect = 0;
  Manner manner;
  std::vector<float> departures;  ///< of each sign, spans after each other
  bool shows = false;             ///< something that people would tell of
  bool steady = false;            ///< the fault is there from the start on, in its own course
  bool between = false;           ///< not run, but taken to lie between two that were
};

/// A run as it speaks for a suspect: its own, or that of one of its kin (sim/diagnose/alike.hpp).
struct Case {
  std::size_t suspect = 0;
  std::size_t run = 0;
  std::shared_ptr<const Transposed> elsewhere;  ///< none: its own
};

/// Whether anything is there that anybody would notice.
bool anything_shows(const Library& library, const Shown& shown);

/// What the library is made from.
struct LibraryPlan {
  std::string path;  ///< of the scene
  SceneChanges changes;
  int begins_on = kSunday;  ///< ISO 8601
  SimTime until = 3 * kDay;
  double vary = 0.2;  ///< least tolerance of parts in the runs
  /// About so many of all suspects together; 0: 2,400, or fewer where each takes long.
  std::size_t runs = 0;
  std::size_t sound = 8;  ///< sound runs
  std::uint64_t seed = 1;
  std::size_t threads = 0;  ///< 0: as many as there are cores
};

/// How a scene is watched: without the faults that it names itself, and from a Sunday on, so that
/// days of work are met and one of rest.
SceneChanges as_watched(const LibraryPlan& plan);

/// One installation of the make, with what is usual with it when it is sound.
struct Known {
  std::shared_ptr<const Installation> installation;
  std::vector<Usual> usual;
  /// That has met, and keeps, what goes on in it when it is sound. For one bench at a time; none:
  /// of a library that was read.
  std::shared_ptr<Session> session;
};

/// What would be noticed of everything that may be the matter with an installation, found by
/// running it so.
struct Library {
  std::shared_ptr<const Installation> installation;
  std::vector<SignAt> signs;
  std::vector<std::vector<PartId>> circuits;  ///< that the current through each part passes
  WatchPlan watch;
  std::vector<Usual> usual;
  std::vector<Suspect> suspects;
  std::vector<double> prior;
  std::vector<Run> runs;                  ///< of each kin of suspects one after another
  std::vector<Case> cases;                ///< in order of the suspects
  std::vector<std::vector<float>> sound;  ///< departures of sound runs
  std::vector<Known> specimens;           ///< that the cases take turns with
  std::size_t simulations = 0;
  double runs_of_each = 0;  ///< that were made of each kin of suspects, on the average

  const Run& run_of(std::size_t number) const { return runs[cases[number].run]; }
  Shown shown_in(std::size_t number) const {
    return {run_of(number).departures, cases[number].elsewhere.get()};
  }
};

/// Told now and then: how many runs are done, of how many. Called from one thread at a time.
using OnProgress = std::function<void(std::size_t done, std::size_t all)>;

/// The scene's installation, its signs and suspects; nothing is run yet. Errors: nullptr, reported.
/// Order: registry and books outlive the library.
std::shared_ptr<Library> open_library(const LibraryPlan& plan, const Registry& registry,
                                      const SignBook& signs, const FaultBook& faults,
                                      Diagnostics& diagnostics);
/// Finds specimens, and what is usual with them.
void find_usual(Library& library, const LibraryPlan& plan, const Registry& registry);
/// What can be said before a library is whole: after some twenty seconds, and then once or twice.
struct Early {
  std::vector<double> urgency;  ///< of each suspect: with which it begins
  /// Given a library of the runs that there are so far, by the thread that fills it. May be empty.
  std::function<void(const Library&)> told;
};
/// Runs all cases. The same for any number of threads, and whatever is told early. Order: after
/// find_usual().
void fill_library(Library& library, const LibraryPlan& plan, const OnProgress& told,
                  const Early& early = {});

/// Makes of the runs what they say of each suspect. Between those that differ in severity only
/// others are put first: a fault may be there in any degree, and runs are few. Departures of theirs
/// lie between in the ratio of what is noticed. Then all kin share them.
void make_cases(Library& library);

/// Other installations of the same make, that have been brought up: one that does not go
/// right as it stands is left out. `first`: number of the first to try.
struct Specimens {
  std::vector<std::shared_ptr<const Installation>> all;
  std::vector<std::shared_ptr<Session>> sessions;  ///< of each, watched in the first of its weeks
  std::vector<std::vector<Sighting>> seen;  ///< what is noticed of each, at one time and another
  std::vector<std::uint64_t> numbers;
  /// With what is usual. `all_usual`: of the make.
  std::vector<Known> known(const std::vector<Usual>& all_usual,
                           const std::vector<SignAt>& signs) const;
};
Specimens specimens_of(const Library& library, const LibraryPlan& plan, std::uint64_t first,
                       std::size_t count, const Registry& registry);
/// Runs one specimen with one fault after another. What goes on in it when it is sound has been run
/// before: that makes all others faster and changes nothing in them.
class Bench {
 public:
  /// Order: the library outlives it, and no other bench has the specimen's session.
  Bench(const Library& library, Known specimen);
  ~Bench();
  Bench(const Bench&) = delete;
  Bench& operator=(const Bench&) = delete;
  /// What is noticed of one fault.
  std::vector<float> departures_with(const Suspect& suspect, const Manner& manner);
  /// Of several at once.
  std::vector<float> departures_with(const std::vector<std::pair<Suspect, Manner>>& faults);
  /// How much work the last run was, on any machine, and whichever runs went before. Units:
  /// transients.
  double work() const { return work_; }

 private:
  const Library& library_;
  Known specimen_;
  double work_ = 0;
};

/// Does `job` for each of the numbers, the specimens taking turns in their order. Each specimen has
/// one bench for all that falls to it, which finds again what it has met before.
void run_on_benches(const Library& library, const std::vector<Known>& specimens,
                    const std::vector<std::size_t>& numbers, std::size_t threads,
                    const std::function<void(std::size_t, Bench&)>& job, const OnProgress& told);

}  // namespace sixty::diagnose
