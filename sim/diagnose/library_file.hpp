#pragma once

#include <cstdint>
#include <string>

#include "sim/diagnose/library.hpp"

namespace sixty::diagnose {

/// What a library depends on besides the program: the installation with all its values and what
/// hands do, the signs and faults, and the plan of its runs.
std::uint64_t key_of(const Library& library, const LibraryPlan& plan);

/// Fills a library that has been opened from a file that was kept of it. `key`: of all that it
/// depends on. Errors: false where there is no such file, or it is of something else or damaged;
/// the library is then as it was.
bool read_library(Library& library, std::uint64_t key, const std::string& path);

/// Keeps it, whole or not at all. Errors: false, the reason in `error`.
bool write_library(const Library& library, std::uint64_t key, const std::string& path,
                   std::string& error);

}  // namespace sixty::diagnose
