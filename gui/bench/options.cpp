#include "gui/bench/options.hpp"

#include <fmt/format.h>

#include <CLI/CLI.hpp>
#include <cstdio>
#include <filesystem>

#include "gui/keep/moment.hpp"
#include "gui/keep/settings.hpp"
#include "gui/tour/film.hpp"
#include "sim/base/clock_time.hpp"
#include "sim/diagnose/watch.hpp"
#include "sim/lesson/shelf.hpp"
#include "sim/tour/tour.hpp"
#include "sim/words/words.hpp"

namespace sixty::gui {
namespace {

constexpr unsigned kLeastSize = 320, kMostSize = 8192;

void read_size(Options& options, Diagnostics& mistakes) {
  if (options.size.empty()) return;
  char rest = 0;
  const int read =
      std::sscanf(options.size.c_str(), "%ux%u%c", &options.width, &options.height, &rest);
  const auto fits = [](unsigned side) { return side >= kLeastSize && side <= kMostSize; };
  if (read == 2 && fits(options.width) && fits(options.height)) return;
  Diagnostic mistake;
  mistake.what = "--size: this is no size of a window";
  mistake.found = options.size;
  mistake.expected =
      fmt::format("WIDTHxHEIGHT in pixels, each from {} to {}", kLeastSize, kMostSize);
  mistake.mend = "write it like --size 1280x800";
  mistakes.add(mistake);
}

void read_watch(HuntOptions& hunt, Diagnostics& mistakes) {
  if (hunt.watch_for.empty()) return;
  Diagnostic mistake;
  const auto watch = parse_duration(hunt.watch_for, mistake);
  if (watch && diagnose::can_be_watched(*watch, mistake)) {
    hunt.watch = *watch;
    return;
  }
  mistake.what = "--watch: " + mistake.what;
  mistake.found = hunt.watch_for;
  mistakes.add(mistake);
}

void read_view(const Options& options, Opening& opening, Diagnostics& mistakes) {
  const std::string part = "part:";
  if (options.view == "case") return;
  if (options.view == "building") {
    opening.view = View::kBuilding;
    return;
  }
  if (options.view.rfind(part, 0) == 0) {
    opening.view = View::kPart;
    opening.part = opening.installation->find_id(options.view.substr(part.size()));
    if (opening.part) return;
  }
  Diagnostic mistake;
  mistake.what = "--view: there is nothing of that name to look at";
  mistake.found = options.view;
  mistake.expected = "building, case, or part:NAME with the name of a part of the scene";
  mistake.mend = "see the names in " + options.scene;
  mistakes.add(mistake);
}

SimTime time_of(const char* option, const std::string& text, SimTime after, const Opening& opening,
                Diagnostics& mistakes) {
  Diagnostic mistake;
  const auto at = parse_time(text, opening.installation->clock, after, mistake);
  if (at) return *at;
  mistake.what = option + (": " + mistake.what);
  mistakes.add(mistake);
  return 0;
}

void read_at(const Options& options, Opening& opening, Diagnostics& mistakes) {
  if (options.at.empty()) return;
  opening.at = time_of("--at", options.at, 0, opening, mistakes);
}

void refuse_film(const std::string& what, const std::string& found, const std::string& expected,
                 const std::string& mend, Diagnostics& mistakes) {
  Diagnostic mistake;
  mistake.what = "--film: " + what;
  mistake.found = found;
  mistake.expected = expected;
  mistake.mend = mend;
  mistakes.add(mistake);
}

void read_film(const Options& options, Opening& opening, Diagnostics& mistakes) {
  const FilmOrder& film = options.film;
  if (film.folder.empty()) return;
  if (film.from.empty() || film.to.empty()) {
    refuse_film("it needs two times", "", "--from TIME --to TIME",
                "write them, as in --from \"Mon 08:30:04\" --to \"Mon 08:30:08\"", mistakes);
    return;
  }
  const std::size_t before = mistakes.list().size();
  opening.film_from = time_of("--from", film.from, 0, opening, mistakes);
  opening.film_to = time_of("--to", film.to, opening.film_from, opening, mistakes);
  if (mistakes.list().size() > before) return;
  if (opening.film_to < opening.film_from) {
    refuse_film("it would end before it begins", film.to, "a time behind --from",
                "choose a later --to", mistakes);
    return;
  }
  // Stretched, a minute takes ten seconds at the most.
  const double length_s = to_seconds(opening.film_to - opening.film_from);
  const double wall_s = film.stretch ? length_s / 6 : length_s / film.speed;
  if (wall_s * kFilmRate <= static_cast<double>(kMostFrames)) return;
  // Of a weekday or a time of day the next was taken, up to a week later.
  Diagnostic unused;
  const auto first = parse_time(film.to, opening.installation->clock, 0, unused);
  if (first && *first < opening.film_from) {
    refuse_film(
        "--to lies before --from, and the next such time would make it too long",
        film.to + ", taken as " + format_instant(opening.installation->clock, opening.film_to, 0),
        "a time soon behind --from", "choose a later --to", mistakes);
  } else {
    refuse_film("it would be too long", fmt::format("{:.0f} pictures", wall_s * kFilmRate),
                fmt::format("{} pictures at the most, 25 to a second", kMostFrames),
                "choose times that lie nearer, or a higher --speed", mistakes);
  }
}

/// A name alone stands for a file among the scene's tours.
std::string tour_file(const Options& options, const std::string& scene) {
  const std::filesystem::path named(options.tour);
  if (named.has_extension() || named.has_parent_path()) return options.tour;
  const std::filesystem::path beside = std::filesystem::path(scene).parent_path();
  return (beside / "tours" / (options.tour + ".yaml")).string();
}

/// A number alone stands for one of the lessons beside the scene.
void read_lesson(Options& options, const std::string& scene, Diagnostics& mistakes) {
  if (options.lesson.find_first_not_of("0123456789") != std::string::npos) return;
  const auto folder = std::filesystem::path(scene).parent_path() / "lessons";
  std::vector<std::string> numbers;
  for (const lesson::Listed& one : lesson::lessons_in(folder.string())) {
    numbers.push_back(std::to_string(one.number));
    if (numbers.back() != options.lesson) continue;
    options.lesson = one.path;
    return;
  }
  Diagnostic mistake;
  mistake.what = "--lesson: there is no lesson of this number";
  mistake.found = options.lesson;
  mistake.expected = numbers.empty() ? "a file: there are none beside the scene" : listed(numbers);
  mistake.mend = "choose one of them, or name a file";
  mistakes.add(mistake);
}

void read_walk(const Options& options, const Registry& registry, Opening& opening,
               Diagnostics& mistakes) {
  if (options.tour.empty()) return;
  opening.tour =
      read_tour(tour_file(options, opening.scene), *opening.installation, registry, mistakes);
  if (opening.tour == nullptr ||
      static_cast<std::size_t>(options.step) <= opening.tour->steps.size())
    return;
  Diagnostic mistake;
  mistake.what = "--step: the tour has no such step";
  mistake.found = fmt::format("{}", options.step);
  mistake.expected = fmt::format("from 1 to {}", opening.tour->steps.size());
  mistake.mend = "choose one of them, or leave --step out";
  mistakes.add(mistake);
}

/// The school, among the scenes beside the program or above it.
std::string usual_scene() {
  namespace fs = std::filesystem;
  const fs::path name = fs::path("scenes") / "technical-school.yaml";
  std::error_code error;
  const fs::path beside = fs::read_symlink("/proc/self/exe", error).parent_path();
  for (const fs::path& folder : {beside, beside / ".."}) {
    if (fs::is_regular_file(folder / name, error)) return (folder / name).lexically_normal();
  }
  return name;
}

/// Tours, lessons and films. `present`: a tour for a talk; `loop`: it begins again.
void add_walks(CLI::App& app, const CLI::Validator& named, Options& options, std::string& present,
               bool& loop) {
  FilmOrder& film = options.film;
  auto* tour = app.add_flag("--tour{overview}", options.tour,
                            "Walk a tour of the scene, unattended and in full screen: the one that "
                            "is called overview, or --tour=FILE");
  app.add_flag("--loop", loop, "Begin the tour again and again")->needs(tour);
  auto* talk =
      app.add_option("--present", present, "Walk the tour FILE for a talk: one key, one step")
          ->excludes(tour);
  app.add_option("--lesson", options.lesson,
                 "Begin a lesson: a FILE, or the number of one beside the scene")
      ->excludes(tour)
      ->excludes(talk)
      ->check(named);
  app.add_option("--step", options.step, "Begin the tour or lesson with this step")
      ->check(CLI::Range(1, 1000));
  auto* folder = app.add_option("--film", film.folder,
                                "Write numbered pictures into a folder, 25 to a second, and end")
                     ->check(named)
                     ->excludes(tour)
                     ->excludes(talk);
  app.add_option("--from", film.from, "When the film begins: a TIME of the scene")->needs(folder);
  app.add_option("--to", film.to, "When it ends")->needs(folder);
  app.add_option("--speed", film.speed, "Of the film: seconds of the scene to a second")
      ->needs(folder)
      ->check(CLI::Range(1e-5, 1e6));
  app.add_flag("--stretch", film.stretch, "Slow round what happens, whatever the --speed")
      ->needs(folder);
  app.add_flag("--captions", film.captions, "Write below each picture when it is, and what begins")
      ->needs(folder);
}

void add_exhibit(CLI::App& app, const CLI::Validator& named, Options& options) {
  auto* exhibit = app.add_option("--exhibit", options.exhibit,
                                 "Run the exhibit FILE for visitors, in full screen")
                      ->check(named);
  app.add_option("--piece", options.piece, "Of the exhibit: which piece a --screenshot is of")
      ->needs(exhibit);
  app.add_flag("--make-pin", options.makes_pin,
               "Ask for a PIN, and print the line that an exhibit's file keeps of it");
  app.add_option("--clock", options.clock,
                 "Of the exhibit: what clocks on the wall show when it begins, 2026-12-01T10:15")
      ->needs(exhibit);
}

std::vector<std::string> codes_of_languages() {
  std::vector<std::string> codes;
  for (const Language& language : languages()) codes.push_back(language.code);
  return codes;
}

}  // namespace

std::optional<int> read_options(int argc, char** argv, Options& options, Diagnostics& mistakes) {
  CLI::App app("sixtybeats-bench: an installation on the bench, to be looked at while it runs");
  app.add_option("SCENE", options.scene, "Scene file (YAML); without one, the technical school");
  app.add_option("--fault", options.changes.fault, "Put a fault in, as in `sixtybeats run`");
  app.add_option("--set", options.changes.set, "Change a part's value: PART.VALUE=QUANTITY");
  app.add_option("--do", options.changes.action, "Let a hand act: TIME PART.COMMAND [QUANTITY]");
  app.add_option("--at", options.at, "When to begin: a TIME of the scene");
  app.add_option("--view", options.view, "building, case or part:NAME");
  app.add_option("--size", options.size, "Size of the window: WIDTHxHEIGHT");
  app.add_option("--theme", options.theme, "dark or light")
      ->check(CLI::IsMember({"dark", "light"}));
  app.add_option("--language", options.language, "Of the words: en, de")
      ->check(CLI::IsMember(codes_of_languages()));
  app.add_option("--scale", options.scale, "How large all is drawn; 2 for a dense display")
      ->check(CLI::Range(Settings::kLeastScale, Settings::kMostScale));
  const CLI::Validator named(
      [](std::string& text) { return text.empty() ? "a name is missing" : ""; }, "");
  app.add_option("--screenshot", options.screenshot, "Write one picture to a PNG file, and end")
      ->check(named);
  app.add_option("--fonts", options.fonts, "Folder with DejaVuSans.ttf and DejaVuSans-Bold.ttf");
  app.add_option("--measure-frames", options.measure_frames,
                 "Draw so many frames, tell how long they took, and end")
      ->check(CLI::Range(1, 100000));
  app.add_option("--cache", options.hunt.cache, "Where runs of fault hunts are kept")
      ->envname("XDG_CACHE_HOME");
  app.add_option("--watch", options.hunt.watch_for, "How long each of them is watched (3d)");
  app.add_option("--runs", options.hunt.runs,
                 "About how many there are (2400, or what ten minutes allow)")
      ->check(CLI::Range(100, 100'000));
  std::string present;
  bool loop = false;
  add_walks(app, named, options, present, loop);
  add_exhibit(app, named, options);
  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? 0 : 2;
  }
  if (loop) options.way = Guide::Way::kLoop;
  if (!present.empty()) {
    options.way = Guide::Way::kTalk;
    options.tour = present;
  }
  read_size(options, mistakes);
  read_watch(options.hunt, mistakes);
  if (options.scene.empty()) options.scene = usual_scene();
  if (!options.lesson.empty()) read_lesson(options, options.scene, mistakes);
  return std::nullopt;
}

Opening open_path(const std::string& path, const SceneChanges& changes, const Registry& registry,
                  Diagnostics& mistakes) {
  Opening opening;
  std::optional<Moment> moment = open_file(path, registry, changes, mistakes);
  if (!moment) return opening;
  opening.installation = moment->installation;
  opening.actions = std::move(moment->actions);
  opening.at = moment->at;
  opening.scene = moment->scene;
  opening.set = moment->set;
  SceneChanges sound = changes;
  sound.set = moment->set;
  sound.sound = true;
  opening.sound = load_scene(opening.scene, registry, sound, mistakes);
  return opening;
}

Opening open_scene(const Options& options, const Registry& registry, Diagnostics& mistakes) {
  Opening opening = open_path(options.scene, options.changes, registry, mistakes);
  if (!opening.installation) return opening;
  read_at(options, opening, mistakes);
  read_view(options, opening, mistakes);
  read_film(options, opening, mistakes);
  read_walk(options, registry, opening, mistakes);
  return opening;
}

}  // namespace sixty::gui
