#include "gui/staff/aside.hpp"

#include <signal.h>

#include <cerrno>
#include <charconv>
#include <filesystem>
#include <system_error>
#include <vector>

#include "gui/keep/write.hpp"
#include "sim/base/text.hpp"

namespace sixty::gui {
namespace {

/// Whether a file's name is `head`, the number of a process that is gone, "-" and what follows.
bool is_of_the_dead(const std::string& name, const std::string& head) {
  if (!name.starts_with(head) || !name.ends_with(".part")) return false;
  int process = 0;
  const char* end = name.data() + name.size();
  const auto [stop, code] = std::from_chars(name.data() + head.size(), end, process);
  if (code != std::errc() || stop == end || *stop != '-' || process <= 0) return false;
  return ::kill(process, 0) != 0 && errno == ESRCH;
}

}  // namespace

bool set_aside(const std::string& path, std::string& error) {
  namespace fs = std::filesystem;
  const std::string aside = path + ".damaged";
  std::error_code code;
  fs::copy_file(path, aside, fs::copy_options::overwrite_existing, code);
  if (!code) return true;
  fs::rename(path, aside, code);
  if (!code) return true;
  error = printable(aside, 500) + " cannot be written: " + code.message();
  return false;
}

void remove_leftovers(const std::string& path) {
  namespace fs = std::filesystem;
  const std::string head = "." + fs::path(path).filename().string().substr(0, 200) + ".";
  std::error_code code;
  std::vector<fs::path> leftovers;
  for (fs::directory_iterator at(folder_of(path), code), end; !code && at != end;
       at.increment(code))
    if (is_of_the_dead(at->path().filename().string(), head)) leftovers.push_back(at->path());
  for (const fs::path& leftover : leftovers) fs::remove(leftover, code);
}

}  // namespace sixty::gui
