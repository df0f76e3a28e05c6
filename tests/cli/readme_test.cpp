// What the README shows is what the program prints. With SIXTY_WRITE_README set in the environment
// the README is written anew instead: build/tests/cli_tests --gtest_filter='ReadmeTest.*'
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <regex>
#include <string>
#include <vector>

#include "sim/base/file.hpp"

namespace sixty {
namespace {

const std::string kReadme = std::string(SIXTY_SOURCE_DIR) + "/README.md";
const std::string kFirst = "`gui/start` prints:";  // the block after it, which shows no command

std::string readme() {
  Diagnostics diagnostics;
  const std::optional<std::string> text = read_file_bounded(kReadme, 1 << 20, diagnostics);
  EXPECT_TRUE(text) << diagnostics.to_text();
  return text.value_or("");
}

void write_readme(const std::string& text) {
  WholeFile file;
  std::string error;
  const bool written = file.open(kReadme, error) && file.write(text) && file.commit(error);
  EXPECT_TRUE(written) << error;
}

/// What a command prints, given in the top folder. Errors: its own go to the test's output.
std::string output_of(std::string command) {
  const std::string program = "build/sixtybeats";
  command.replace(command.find(program), program.size(), SIXTY_PROGRAM);
  command = "cd '" + std::string(SIXTY_SOURCE_DIR) + "' && " + command;
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> out(::popen(command.c_str(), "r"),
                                                            ::pclose);
  std::string text;
  std::array<char, 4096> part{};
  while (const std::size_t n = std::fread(part.data(), 1, part.size(), out.get())) {
    text.append(part.data(), n);
  }
  return text;
}

/// A fenced block that shows a command's output.
struct Shown {
  std::string command;
  std::size_t from = 0, to = 0;  ///< of the output, in the text
};

std::vector<Shown> shown_in(const std::string& text) {
  std::vector<Shown> all;
  const std::string fence = "\n```\n";
  for (std::size_t open = text.find(fence); open != std::string::npos;) {
    std::size_t from = open + fence.size();
    const std::size_t close = text.find(fence, from - 1);
    Shown shown;
    if (text.compare(from, 2, "$ ") == 0) {
      const std::size_t end = text.find('\n', from);
      shown.command = text.substr(from + 2, end - from - 2);
      from = end + 1;
    } else if (text.rfind(kFirst, open) != std::string::npos && all.empty()) {
      shown.command = "build/sixtybeats run scenes/bench-minimal.yaml --for 7d";
    }
    shown.from = from;
    shown.to = close + 1;
    if (!shown.command.empty()) all.push_back(shown);
    open = text.find(fence, close + fence.size() - 1);
  }
  return all;
}

/// Seconds of computing are the machine's, not the program's.
std::string without_wall_time(const std::string& text) {
  return std::regex_replace(text, std::regex("in [0-9.]+ s of computing"), "in … s of computing");
}

TEST(ReadmeTest, ShowsWhatTheProgramPrints) {
  std::string text = readme();
  std::vector<Shown> all = shown_in(text);
  ASSERT_EQ(all.size(), 3U);
  const bool write = std::getenv("SIXTY_WRITE_README") != nullptr;
  for (auto shown = all.rbegin(); shown != all.rend(); ++shown) {
    const std::string printed = output_of(shown->command);
    const std::string in_readme = text.substr(shown->from, shown->to - shown->from);
    if (write) {
      text.replace(shown->from, shown->to - shown->from, printed);
    } else {
      EXPECT_EQ(without_wall_time(printed), without_wall_time(in_readme)) << shown->command;
    }
  }
  if (write) write_readme(text);
}

}  // namespace
}  // namespace sixty
