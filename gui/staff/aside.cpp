#include "gui/staff/aside.hpp"

#include <filesystem>
#include <system_error>

#include "sim/base/text.hpp"

namespace sixty::gui {

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

}  // namespace sixty::gui
