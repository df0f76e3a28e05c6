#include "gui/bench/language.hpp"

#include <cstdlib>

namespace sixty::gui {
namespace {

/// What the first of the system's variables says that says anything, as POSIX has it.
std::string system_language() {
  for (const char* variable : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
    const char* value = std::getenv(variable);
    if (value == nullptr || *value == '\0') continue;
    const std::string text = value;
    return text.substr(0, text.find_first_of("_.@"));
  }
  return "";
}

}  // namespace

const Language& chosen_language(const std::string& command_line, const std::string& settings) {
  for (const std::string& code : {command_line, settings, system_language()})
    if (const Language* language = find_language(code)) return *language;
  return languages().front();
}

}  // namespace sixty::gui
