// What the README shows is what the program prints. With SIXTY_WRITE_README set in the environment
// the README is written anew instead: build/tests/cli_tests --gtest_filter='ReadmeTest.*'
#include <gtest/gtest.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <regex>
#include <string>
#include <vector>

#include "sim/base/file.hpp"
#include "tests/cli/folder.hpp"

namespace sixty {
namespace {

const std::string kReadme = std::string(SIXTY_SOURCE_DIR) + "/README.md";
const std::string kProgram = "build/sixtybeats";
const std::string kFirst = "`gui/start` prints:";  // the block after it, which shows no command

std::string text_of(const std::string& path) {
  Diagnostics diagnostics;
  const std::optional<std::string> text = read_file_bounded(path, 1 << 20, diagnostics);
  EXPECT_TRUE(text) << diagnostics.to_text();
  return text.value_or("");
}

void write_readme(const std::string& text) {
  WholeFile file;
  std::string error;
  const bool written = file.open(kReadme, error) && file.write(text) && file.commit(error);
  EXPECT_TRUE(written) << error;
}

struct Printed {
  std::string text;
  int status = -1;  ///< of the shell; 0 when all went well
};

/// What a command prints, given in the top folder. Errors: its own go to the test's output.
Printed output_of(std::string command) {
  const std::size_t program = command.find(kProgram);
  if (program == std::string::npos) return {};
  command.replace(program, kProgram.size(), SIXTY_PROGRAM);
  command = "cd '" + std::string(SIXTY_SOURCE_DIR) + "' && " + command;
  std::FILE* out = ::popen(command.c_str(), "r");
  if (out == nullptr) return {};
  Printed printed;
  std::array<char, 4096> part{};
  while (const std::size_t n = std::fread(part.data(), 1, part.size(), out)) {
    printed.text.append(part.data(), n);
  }
  printed.status = ::pclose(out);
  return printed;
}

/// What gui/start runs when nothing else is asked for.
std::string first_command() {
  const std::string script = text_of(std::string(SIXTY_SOURCE_DIR) + "/gui/start");
  std::smatch found;
  return std::regex_search(script, found, std::regex("\n *set -- (.*)\n"))
             ? kProgram + " " + found.str(1)
             : "";
}

/// Commands named between the lines, with something in place of what stands for a file or a choice.
std::vector<std::string> named_in(const std::string& text, const std::string& folder) {
  std::vector<std::string> all;
  const std::regex quoted("`(" + kProgram + "\\s[^`]+)`");
  for (std::sregex_iterator it(text.begin(), text.end(), quoted), end; it != end; ++it) {
    std::string command = std::regex_replace(it->str(1), std::regex("\\s+"), " ");
    command = std::regex_replace(command, std::regex("[\\[\\]]"), "");
    command = std::regex_replace(command, std::regex("PART"), "switch");
    command = std::regex_replace(command, std::regex("part.reading,…"), "rewind.current");
    command = std::regex_replace(command, std::regex("SCENE|FILE…"), "scenes/bench-minimal.yaml");
    command =
        std::regex_replace(command, std::regex("--trace [^ ]+"), "--trace " + folder + "/t.csv");
    all.push_back(command);
  }
  return all;
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
      shown.command = first_command();
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

class ReadmeTest : public cli::FolderTest {};

TEST_F(ReadmeTest, ShowsWhatTheProgramPrints) {
  std::string text = text_of(kReadme);
  std::vector<Shown> all = shown_in(text);
  ASSERT_EQ(all.size(), 15U);
  const bool write = std::getenv("SIXTY_WRITE_README") != nullptr;
  // In the reader's order, and as on a machine where nothing is kept yet.
  ASSERT_EQ(::setenv("XDG_CACHE_HOME", folder().c_str(), 1), 0);
  std::vector<std::string> printed;
  for (const Shown& shown : all) printed.push_back(output_of(shown.command).text);
  for (std::size_t k = all.size(); k-- > 0;) {
    const Shown& shown = all[k];
    const std::string in_readme = text.substr(shown.from, shown.to - shown.from);
    if (write) {
      text.replace(shown.from, shown.to - shown.from, printed[k]);
    } else {
      EXPECT_EQ(without_wall_time(printed[k]), without_wall_time(in_readme)) << shown.command;
    }
  }
  if (write) write_readme(text);
}

TEST_F(ReadmeTest, NamesNoCommandThatFails) {
  const std::vector<std::string> all = named_in(text_of(kReadme), folder());
  EXPECT_EQ(all.size(), 12U);
  for (const std::string& command : all) {
    const Printed printed = output_of(command);
    EXPECT_EQ(printed.status, 0) << command;
    EXPECT_FALSE(printed.text.empty()) << command;
  }
}

}  // namespace
}  // namespace sixty
