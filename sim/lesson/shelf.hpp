#pragma once

#include <map>
#include <string>
#include <vector>

#include "sim/lesson/lesson.hpp"

namespace sixty::lesson {

/// What a lesson's file says of itself, before its scene is read.
struct Listed {
  std::string path;
  std::map<std::string, std::string> title;  ///< by language
  std::string scene;
  int number = 0;
  double minutes = 0;
};

/// The lessons of a folder, by number and then by file; files that are none are left out.
std::vector<Listed> lessons_in(const std::string& folder);

/// In that language, else in English.
std::string title_in(const Listed& listed, const std::string& language);

}  // namespace sixty::lesson
