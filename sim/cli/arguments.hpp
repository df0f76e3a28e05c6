#pragma once

#include <string>
#include <variant>
#include <vector>

#include "sim/base/diagnostic.hpp"

namespace sixty::cli {

/// Which scene, and what the command line changes in it: texts as the user wrote them.
struct SceneArguments {
  std::string path;
  std::string seed;
  std::vector<std::string> set;
  std::vector<std::string> action;
  std::vector<std::string> fault;
};

struct RunArguments {
  SceneArguments scene;
  std::string span;   ///< of --for
  std::string until;  ///< an instant, instead
  bool json = false;
  std::string trace;
  std::vector<std::string> signals;
  std::string sample;
  bool no_reuse = false;
};

struct EventsArguments {
  SceneArguments scene;
  std::string from, to;
  std::vector<std::string> kinds, parts;
  bool full = false;
  bool json = false;
};

struct CheckArguments {
  std::vector<std::string> files;
};

struct PartsArguments {
  std::string part;  ///< empty: all
  bool json = false;
  bool commands = false;  ///< only what hands can do
};

struct FaultsArguments {
  std::string scene;  ///< empty: faults of all part types
  std::string about;  ///< a fault's number or name; empty: all
  bool json = false;
};

struct CompareArguments {
  SceneArguments scene;
  std::string span;  ///< of --for
  bool json = false;
};

struct LessonArguments {
  std::string deed;  ///< "play"
  std::vector<std::string> files;
  std::string language;
};

struct WhyArguments {
  SceneArguments scene;
  std::string question;
  bool json = false;
};

struct MeasureArguments {
  SceneArguments scene;
  std::vector<std::string> meters;
  std::string during;
  std::string sample;  ///< interval of the recorder
  bool truth = false;
  bool json = false;
};

/// How the runs are made that everything is held against.
struct LibraryArguments {
  std::string watch;  ///< how long
  std::string runs;   ///< about how many
  std::string cache;  ///< folder
};

struct DiagnoseArguments {
  SceneArguments scene;
  LibraryArguments library;
  std::string observations;  ///< file; empty with a self-test
  std::string self_test;     ///< number of cases
  bool pairs = false, left_out = false, inverted = false;
  bool variant = false, calibration = false;  ///< what the cases take for granted
  std::string vary;
  std::string html;  ///< file of the page that can be printed; empty: none
  bool json = false;
};

struct ObserveArguments {
  SceneArguments scene;
  std::string vary;
  std::string noise;  ///< light or heavy
  std::string out;
};

struct HuntArguments {
  SceneArguments scene;
  LibraryArguments library;
  std::string level;  ///< of difficulty; empty: obvious
  bool json = false;
};

struct LearnersArguments {
  std::string data;    ///< folder in which their files lie in sixtybeats/learners
  std::string forget;  ///< who is to be forgotten; empty: nobody
  std::string html;    ///< file of the page that can be printed; empty: none
  bool csv = false;
};

struct SchemaArguments {};

/// --help and --version.
struct TextWanted {
  std::string text;
};

using Arguments = std::variant<TextWanted, RunArguments, EventsArguments, CheckArguments,
                               PartsArguments, FaultsArguments, CompareArguments, WhyArguments,
                               LessonArguments, MeasureArguments, DiagnoseArguments,
                               ObserveArguments, HuntArguments, LearnersArguments, SchemaArguments>;

/// Reads a command line (without the program's own name). Errors: every mistake is added to
/// `mistakes`, with the nearest word that is known; the result is then of no use.
Arguments parse_arguments(std::vector<std::string> words, Diagnostics& mistakes);

}  // namespace sixty::cli
