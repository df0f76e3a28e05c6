#include "sim/scene/cause.hpp"

namespace sixty {

const std::vector<std::string>& cause_words() {
  static const std::vector<std::string> words{
      "wear",   "age",   "dirt",      "gum",       "oil",     "drain", "overload",
      "outage", "hands", "resetting", "adjusting", "fitting", "paper", "moving",
      "knocks", "damp",  "cold",      "heat",      "thunder"};
  return words;
}

}  // namespace sixty
