#pragma once

#include <gtest/gtest.h>
#include <sys/wait.h>
#include <unistd.h>

#include <SFML/Graphics/Image.hpp>
#include <array>
#include <cstdio>
#include <filesystem>
#include <string>

#include "tests/gui/virtual_display.hpp"

namespace sixty::gui {

/// A scene that comes with the program.
inline std::string scene_file(const std::string& name) {
  return std::string(SIXTY_SOURCE_DIR) + "/scenes/" + name + ".yaml";
}

struct Told {
  int exit_code = -1;
  std::string text;
};

/// Runs a command line with both outputs kept. The display's driver leaks some bytes at its end,
/// which the sanitizers would take for ours.
inline Told tell(const std::string& environment, const std::string& command) {
  Told told;
  const std::string line =
      "env " + environment + " ASAN_OPTIONS=detect_leaks=0 timeout 120 " + command + " 2>&1";
  std::FILE* out = popen(line.c_str(), "r");
  if (out == nullptr) return told;
  std::array<char, 4096> piece{};
  while (std::fgets(piece.data(), piece.size(), out) != nullptr) told.text += piece.data();
  const int status = pclose(out);
  told.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
  return told;
}

inline std::string on_display() { return "DISPLAY=:" + display().number(); }

/// The picture that the program makes with these arguments.
inline sf::Image picture_of(const std::string& arguments) {
  const std::string file = testing::TempDir() + "bench-" + std::to_string(getpid()) + ".png";
  std::filesystem::remove(file);
  const Told told = tell(
      on_display(), std::string(SIXTY_BENCH_PROGRAM) + " " + arguments + " --screenshot " + file);
  EXPECT_EQ(told.exit_code, 0) << told.text;
  sf::Image image;
  EXPECT_TRUE(image.loadFromFile(file));
  std::filesystem::remove(file);
  return image;
}

}  // namespace sixty::gui
