#include "tests/diagnose/well_formed.hpp"

#include <regex>
#include <vector>

namespace sixty::diagnose {
namespace {

bool has_bare_ampersand(const std::string& text) {
  static const std::regex reference("&(amp|lt|gt|quot|apos|#[0-9]+|#x[0-9a-fA-F]+);");
  for (std::size_t at = text.find('&'); at != std::string::npos; at = text.find('&', at + 1)) {
    std::smatch found;
    const std::string rest = text.substr(at, 12);
    if (!std::regex_search(rest, found, reference) || found.position() != 0) return true;
  }
  return false;
}

}  // namespace

std::string what_is_malformed(const std::string& text) {
  static const std::regex tag(
      "<(/?)([A-Za-z][A-Za-z0-9]*)((?:\\s+[A-Za-z:-]+=\"[^\"<]*\")*)\\s*(/?)>");
  std::vector<std::string> open;
  std::size_t at = 0;
  const std::string doctype = "<!DOCTYPE html>";
  if (text.rfind(doctype, 0) == 0) at = doctype.size();
  bool had_root = false;
  while (at < text.size()) {
    const std::size_t next = std::min(text.find('<', at), text.size());
    const std::string between = text.substr(at, next - at);
    if (has_bare_ampersand(between)) return "a bare & in: " + between;
    for (const char c : between) {
      if (static_cast<unsigned char>(c) < 0x20 && c != '\n' && c != '\t') return "a control sign";
      if (open.empty() && c != '\n' && c != ' ') return "text outside of all tags: " + between;
    }
    if (next == text.size()) break;
    std::smatch found;
    const std::string rest = text.substr(next, text.find('>', next) + 1 - next);
    if (!std::regex_match(rest, found, tag)) return "no tag: " + rest;
    if (has_bare_ampersand(found[3])) return "a bare & in: " + rest;
    if (open.empty() && had_root) return "a second root: " + rest;
    had_root = true;
    if (found[1] == "/") {
      if (open.empty() || open.back() != found[2]) return "it closes what is not open: " + rest;
      open.pop_back();
    } else if (found[4] != "/") {
      open.push_back(found[2]);
    }
    at = next + rest.size();
  }
  return open.empty() ? "" : "never closed: " + open.back();
}

}  // namespace sixty::diagnose
