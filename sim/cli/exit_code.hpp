#pragma once

namespace sixty::cli {

/// What the program tells whoever started it. Part of its contract: README.md and --help list them.
enum ExitCode : int {
  kOk = 0,
  kRunFailed = 1,      ///< the run could not go on, or the program itself is at fault
  kBadInput = 2,       ///< a mistake in a file or on the command line; nothing was run
  kCouldNotWrite = 3,  ///< a file, or standard output, could not be written
  kInterrupted = 130,  ///< stopped by Ctrl-C; what was reported holds up to then
};

}  // namespace sixty::cli
