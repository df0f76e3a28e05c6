#pragma once

#include <fstream>
#include <sstream>
#include <string>

namespace sixty {

/// A scene that comes with the program.
inline std::string scene_text(const std::string& name) {
  std::ostringstream text;
  text << std::ifstream(SIXTY_SOURCE_DIR "/scenes/" + name + ".yaml").rdbuf();
  return text.str();
}

/// The smallest whole installation, its parts exactly as their sheets say: no tolerance is drawn.
inline std::string bench_minimal() {
  std::string yaml = scene_text("bench-minimal");
  yaml.replace(yaml.find("seed: 1"), 7, "spread: 0");
  return yaml;
}

/// The same with a switch `cut` in the feed of the rewind, closed at first; more of a script.
inline std::string bench_with_cut(const std::string& script) {
  std::string yaml = bench_minimal();
  const std::string feed = "rewind_feed: [arm_a.anvil, rewind.plus]";
  yaml.replace(yaml.find(feed), feed.size(),
               "rewind_feed: [arm_a.anvil, cut.a]\n  rewind_in: [cut.b, rewind.plus]");
  yaml.insert(yaml.find("wires:"), "  cut: {type: switch, set: {starts: closed}}\n\n");
  return yaml + script;
}

}  // namespace sixty
