#include "sim/diagnose/shelf.hpp"

#include <fmt/format.h>
#include <pwd.h>
#include <unistd.h>

#include <filesystem>
#include <system_error>

#include "sim/base/hash.hpp"
#include "sim/diagnose/fingerprint.hpp"
#include "sim/diagnose/library_file.hpp"
#include "sim/words/words.hpp"

namespace sixty::diagnose {
namespace {

namespace fs = std::filesystem;

std::string folder_in(const std::string& chosen) {
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

std::uint64_t whole_key(const Library& library, const LibraryPlan& plan) {
  return mix(key_of(library, plan), program_fingerprint());
}

}  // namespace

Shelf::Shelf(const std::string& chosen) : folder_(folder_in(chosen)) {}

std::string Shelf::path_of(const Library& library, const LibraryPlan& plan) const {
  if (folder_.empty()) return "";
  return fmt::format("{}/{:016x}.library", folder_, whole_key(library, plan));
}

bool Shelf::find(Library& library, const LibraryPlan& plan) const {
  const std::string path = path_of(library, plan);
  return !path.empty() && read_library(library, whole_key(library, plan), path);
}

bool Shelf::keep(const Library& library, const LibraryPlan& plan, std::string& error) const {
  const std::string path = path_of(library, plan);
  if (path.empty()) {
    error = tr("there is no folder for it");
    return false;
  }
  if (write_library(library, whole_key(library, plan), path, error)) return true;
  error = path + ": " + error;
  return false;
}

}  // namespace sixty::diagnose
