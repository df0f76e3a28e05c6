#pragma once

#include <cstdint>
#include <string>

namespace sixty::cli {

/// The folder for what can be made again: `sixtybeats` in the one that was chosen, or else in
/// .cache in the user's home; made if need be. Source: XDG Base Directory Specification. Errors:
/// empty where there can be none.
std::string cache_folder(const std::string& chosen);

/// A hash of the running program's own bytes; 0 where they cannot be read.
std::uint64_t own_bytes_hash();

}  // namespace sixty::cli
