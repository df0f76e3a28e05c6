#pragma once

#include <string>
#include <vector>

#include "sim/lesson/lesson.hpp"

namespace sixty::lesson {

/// A word with figures in it that a lesson's words hold and nothing stands for.
struct Figures {
  std::string word;
  int line = 0, column = 0;
};

/// All of them, in every language: maps of words by language are looked through, what stands in
/// braces is left out, and so is what lies within words that are `stated`.
std::vector<Figures> figures_in(const YamlNode& root, const std::vector<Stated>& stated);

}  // namespace sixty::lesson
