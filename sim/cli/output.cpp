#include "sim/cli/output.hpp"

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <string>

#include "sim/cli/exit_code.hpp"

namespace sixty::cli {
namespace {

void write(std::FILE* file, std::string_view text) {
  std::fwrite(text.data(), 1, text.size(), file);
}

}  // namespace

void print(std::string_view text) { write(stdout, text); }

void print_now(std::string_view text) {
  print(text);
  std::fflush(stdout);
}

void complain(std::string_view text) { write(stderr, text); }

int refuse(const Diagnostics& mistakes) {
  complain(mistakes.to_text());
  return kBadInput;
}

int end_output(int code) {
  errno = 0;
  if (std::fflush(stdout) == 0 && std::ferror(stdout) == 0) return code;
  char reason[256] = "";
  const char* text =
      errno == 0 ? "not all of it was taken" : strerror_r(errno, reason, sizeof reason);
  complain("cannot write to standard output: " + std::string(text) + "\n");
  return kCouldNotWrite;
}

}  // namespace sixty::cli
