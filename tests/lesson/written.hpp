#pragma once

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "sim/lesson/lesson.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::lesson {

/// A folder with the smallest scene and one lesson of it, as long as it is read.
inline Opened opened(const std::string& text, std::string& mistakes) {
  namespace fs = std::filesystem;
  const fs::path folder = fs::path(testing::TempDir()) / ("lesson-" + std::to_string(getpid()));
  fs::create_directory(folder);
  fs::create_symlink(SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml", folder / "bench-minimal.yaml");
  std::ofstream(folder / "test.yaml") << text;
  Diagnostics diagnostics;
  Opened made = open_lesson((folder / "test.yaml").string(), all_parts(), diagnostics);
  fs::remove_all(folder);
  EXPECT_EQ(made.lesson == nullptr, !diagnostics.empty());
  mistakes = diagnostics.to_text();
  return made;
}

/// The same of one that is right.
inline Opened opened(const std::string& text) {
  std::string mistakes;
  Opened made = opened(text, mistakes);
  EXPECT_EQ(mistakes, "");
  return made;
}

inline const std::string kHead =
    "lesson: {en: A test}\ntopic: {en: Testing}\nscene: bench-minimal\n";

}  // namespace sixty::lesson
