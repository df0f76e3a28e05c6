#pragma once

#include <string>
#include <vector>

namespace sixty::cli {

using Words = std::vector<std::string>;
/// The smallest scene that comes with the program.
inline const std::string kMinimal = SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml";

/// How a run of the built program ended, and what it said.
struct Ended {
  int code = -1;  ///< exit code; -1 if a signal ended it
  std::string out, err;
};

/// The built program, started with arguments, in its own process.
struct Child {
  std::vector<std::string> words;
  long largest_file = -1;         ///< bytes that a file may have; -1: any
  std::string output;             ///< file for standard output instead of `out`
  std::string interrupt_at_file;  ///< folder; Ctrl-C as soon as the program makes a file there

  Ended run() const;
};

/// The most usual case.
Ended run_program_with(std::vector<std::string> words);

}  // namespace sixty::cli
