#pragma once

#include <string>
#include <vector>

namespace sixty {

/// Words that are shown and stand in no source, but in data: what parts, faults, signs and checks
/// say, and the English words of lessons and tours.
struct DataWords {
  std::string words;
  std::string context;  ///< may be empty
  std::string place;    ///< "models/NAME" or a file below the top of the tree
};

/// All of them, as the program asks for them; some several times.
std::vector<DataWords> data_words();

/// Those of one lesson or tour.
std::vector<std::string> said_in(const std::string& path);

}  // namespace sixty
