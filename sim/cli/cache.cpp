#include "sim/cli/cache.hpp"

#include <pwd.h>
#include <unistd.h>

#include <filesystem>
#include <system_error>

#include "sim/base/file.hpp"
#include "sim/base/hash.hpp"

namespace sixty::cli {
namespace {

constexpr std::size_t kMostBytes = 1u << 30;

}  // namespace

std::string cache_folder(const std::string& chosen) {
  namespace fs = std::filesystem;
  fs::path folder = chosen;
  if (chosen.empty()) {
    const passwd* user = ::getpwuid(::getuid());
    if (user == nullptr || user->pw_dir == nullptr) return "";
    folder = fs::path(user->pw_dir) / ".cache";
  }
  folder /= "sixtybeats";
  std::error_code error;
  fs::create_directories(folder, error);
  return error ? "" : folder.string();
}

std::uint64_t own_bytes_hash() {
  std::error_code error;
  const auto program = std::filesystem::read_symlink("/proc/self/exe", error);
  if (error) return 0;
  Diagnostics unheard;
  const auto bytes = read_file_bounded(program.string(), kMostBytes, unheard);
  return bytes ? hash_text(*bytes) : 0;
}

}  // namespace sixty::cli
