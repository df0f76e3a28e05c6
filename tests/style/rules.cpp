#include "tests/style/rules.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

#include "tests/style/scan.hpp"

namespace sixty::style {
namespace {

using Words = std::set<std::string, std::less<>>;

/// What the files of a folder may include of ours besides the folder itself.
const std::map<std::string, Words, std::less<>> kLayers = {
    {"sim/base", {}},
    {"sim/words", {"sim/base"}},
    {"sim/kernel", {"sim/base"}},
    {"sim/circuit", {"sim/base"}},
    {"sim/part", {"sim/base", "sim/words", "sim/kernel", "sim/circuit"}},
    {"sim/scene", {"sim/base", "sim/kernel", "sim/circuit", "sim/part"}},
    {"sim/run", {"sim/base", "sim/kernel", "sim/circuit", "sim/part", "sim/scene"}},
    {"sim/explain",
     {"sim/base", "sim/words", "sim/kernel", "sim/circuit", "sim/part",
      "sim/scene/installation.hpp", "sim/scene/mistakes.hpp", "sim/scene/script.hpp",
      "sim/run/session.hpp"}},
    {"sim/instruments",
     {"sim/base", "sim/words", "sim/kernel", "sim/circuit", "sim/part", "sim/scene",
      "sim/run/session.hpp"}},
    {"sim/tour", {"sim/base", "sim/words", "sim/part", "sim/scene"}},
    {"sim/diagnose",
     {"sim/base", "sim/words", "sim/kernel", "sim/part", "sim/scene", "sim/run/session.hpp",
      "sim/run/circuits.hpp"}},
    {"sim/lesson",
     {"sim/base", "sim/words", "sim/part", "sim/scene", "sim/explain", "sim/instruments",
      "sim/diagnose", "sim/tour", "sim/run/session.hpp"}},
    {"sim/exhibit",
     {"sim/base", "sim/words", "sim/part", "sim/scene", "sim/tour", "sim/lesson",
      "sim/run/session.hpp"}},
    {"sim/practice",
     {"sim/base", "sim/words", "sim/part", "sim/scene", "sim/explain", "sim/diagnose",
      "sim/run/session.hpp"}},
    {"sim/cli",
     {"sim/base", "sim/words", "sim/kernel", "sim/circuit", "sim/part", "sim/scene", "sim/run",
      "sim/explain", "sim/instruments", "sim/tour", "sim/diagnose", "sim/lesson", "sim/practice",
      "sim/exhibit", "models/part_list.hpp"}},
    {"gui",
     {"sim/base", "sim/words", "sim/part", "sim/scene", "sim/run", "sim/explain", "sim/instruments",
      "sim/diagnose", "sim/tour", "sim/lesson", "sim/practice", "sim/exhibit",
      "models/part_list.hpp"}},
};

/// Any part's folder: parts meet through the part contract only, never through each other.
const Words kLayersOfPart = {"sim/base", "sim/words", "sim/circuit", "sim/part"};

const Words kGraphicsHeads = {"SFML", "imgui", "GL", "GLES2", "GLES3", "GLFW", "X11", "SDL2"};

/// The C library picks variants of these by processor, so their last bits differ; the functions of
/// sim/base/math.hpp stand in for them.
const Words kMachineDependent = {
    "sin",   "cos",    "tan",    "asin",   "acos",     "atan",         "atan2", "sinh",
    "cosh",  "tanh",   "exp",    "exp2",   "expm1",    "log",          "log2",  "log10",
    "log1p", "pow",    "cbrt",   "hypot",  "erf",      "erfc",         "asinh", "acosh",
    "atanh", "tgamma", "lgamma", "sincos", "ellint_1", "comp_ellint_1"};

/// Never the same twice, or not the same in another library.
const Words kUnrepeatable = {"random_device", "rand",      "srand",  "mt19937",
                             "mt19937_64",    "setlocale", "getenv", "default_random_engine"};

const Words kWallClocks = {"system_clock", "steady_clock", "high_resolution_clock", "clock_gettime",
                           "gettimeofday"};

/// The network's elements (sim/circuit/network.hpp) have the names that circuit theory gave them,
/// and the plain parts that are one such element each are called the same; a scene joins all of
/// them by wires. Where elements are handled, these words mean the element.
const Words kElements = {"capacitor", "coil", "diode", "fuse", "resistor", "wire"};
const Words kElementFolders = {
    "sim/circuit", "sim/explain", "sim/instruments", "sim/part", "sim/run", "sim/scene", "gui"};

/// Circuit theory's word for whatever conducts or does not, allowed where circuits are solved.
const Words kCircuitWords = {"switch"};

/// The value change dump's word for a variable of one bit (IEEE 1364), where such files are
/// written.
const Words kDumpWords = {"wire"};
constexpr std::string_view kDumpWriter = "sim/cli/trace_vcd.cpp";

/// A memory of repeated results that is only ever looked up by key, never walked.
const Words kMayHashByKey = {"sim/circuit/memo.hpp"};

constexpr std::size_t kLongestFile = 500;

bool is_cpp(std::string_view path) {
  return ends_with(path, ".cpp") || ends_with(path, ".hpp") || ends_with(path, ".h");
}

bool is_cmake(std::string_view path) {
  return ends_with(path, "CMakeLists.txt") || ends_with(path, ".cmake") ||
         path == "CMakePresets.json";
}

/// Catalogues of languages hold the words of all, of parts too.
bool is_catalogue(std::string_view path) {
  return ends_with(path, ".po") || ends_with(path, ".pot");
}

bool is_engine(std::string_view path) { return starts_with(path, "sim/"); }
bool is_part(std::string_view path) { return starts_with(path, "models/"); }

std::string finding(const SourceFile& file, std::size_t line_index, std::string_view what) {
  return fmt::format("{}:{}: {}", file.path, line_index + 1, what);
}

/// "models/relay/relay.cpp" -> "models/relay"; "sim/base/time.hpp" -> "sim/base".
std::string layer_of(std::string_view path) {
  if (starts_with(path, "gui/")) return "gui";
  const std::size_t first = path.find('/');
  if (first == std::string_view::npos) return std::string(path);
  return std::string(path.substr(0, path.find('/', first + 1)));
}

const Words* allowed_for(std::string_view layer) {
  if (starts_with(layer, "models/")) return &kLayersOfPart;
  const auto row = kLayers.find(layer);
  return row == kLayers.end() ? nullptr : &row->second;
}

bool is_allowed(std::string_view layer, const Words& allowed, std::string_view target) {
  return layer_of(target) == layer || allowed.count(layer_of(target)) != 0 ||
         allowed.count(target) != 0;
}

bool is_same_or_plural(const std::string& word, const std::string& singular) {
  return word == singular || word == singular + "s" || word == singular + "es";
}

bool has_words(const std::vector<std::string>& text, const std::vector<std::string>& name) {
  const auto same = [&](const std::string& word, const std::string& wanted) {
    return &wanted == &name.back() ? is_same_or_plural(word, wanted) : word == wanted;
  };
  return std::search(text.begin(), text.end(), name.begin(), name.end(), same) != text.end();
}

/// Is the part's name also a word of circuit theory that this folder speaks of?
bool is_element_word(std::string_view layer, std::string_view part) {
  if (layer == "sim/circuit" && kCircuitWords.count(part) != 0) return true;
  return kElementFolders.count(layer) != 0 && kElements.count(part) != 0;
}

bool is_dump_word(std::string_view path, std::string_view part) {
  return path == kDumpWriter && kDumpWords.count(part) != 0;
}

/// C++'s own switch statement names no part.
std::string without_keyword(std::string line) {
  const std::string_view keyword = "switch (";
  const std::size_t at = line.find(keyword);
  return at == std::string::npos ? line : line.erase(at, keyword.size());
}

/// Runs `judge(file, identifier)` on the code of all C++ files of the engine and the parts; a
/// non-empty answer is a finding.
template <typename Judge>
Findings judge_identifiers(const Tree& tree, const Judge& judge) {
  Findings findings;
  for (const SourceFile& file : tree) {
    if (!is_cpp(file.path) || !(is_engine(file.path) || is_part(file.path))) continue;
    const std::vector<std::string> lines = lines_of(code_only(file.text));
    for (std::size_t i = 0; i < lines.size(); ++i) {
      for (const Identifier& it : identifiers_of(lines[i])) {
        const std::string what = judge(file, it);
        if (!what.empty()) findings.push_back(finding(file, i, what));
      }
    }
  }
  return findings;
}

/// A log is also a list of what was done; without <cmath> in sight, an unqualified one is that.
bool is_list_of_events(const SourceFile& file, const Identifier& it) {
  return it.name == "log" && !it.is_qualified && file.text.find("<cmath>") == std::string::npos;
}

}  // namespace

Tree read_tree(const std::string& root) {
  namespace fs = std::filesystem;
  std::vector<std::string> paths = {"CMakeLists.txt", "CMakePresets.json"};
  for (const char* top : {"sim", "models", "gui", "tests"}) {
    for (const auto& entry : fs::recursive_directory_iterator(fs::path(root) / top)) {
      if (entry.is_regular_file()) paths.push_back(fs::relative(entry, root).generic_string());
    }
  }
  std::sort(paths.begin(), paths.end());
  Tree tree;
  for (const std::string& path : paths) {
    std::ifstream stream(fs::path(root) / path, std::ios::binary);
    std::ostringstream text;
    text << stream.rdbuf();
    tree.push_back({path, text.str()});
  }
  return tree;
}

std::vector<std::string> part_names(const Tree& tree) {
  std::set<std::string> names;
  for (const SourceFile& file : tree) {
    const std::string layer = layer_of(file.path);
    if (is_part(file.path) && is_cpp(file.path)) names.insert(layer.substr(layer.find('/') + 1));
  }
  return {names.begin(), names.end()};
}

Findings wrong_includes(const Tree& tree) {
  Findings findings;
  for (const SourceFile& file : tree) {
    if (!is_cpp(file.path) || starts_with(file.path, "tests/")) continue;
    const std::string layer = layer_of(file.path);
    const Words* allowed = allowed_for(layer);
    if (allowed == nullptr) {
      findings.push_back(finding(file, 0, fmt::format("{} is not in the table of layers", layer)));
      continue;
    }
    const std::vector<std::string> lines = lines_of(file.text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const std::string_view name = included_name(lines[i]);
      if (name.empty() || name[0] != '"' || is_allowed(layer, *allowed, name.substr(1))) continue;
      findings.push_back(
          finding(file, i, fmt::format("{} may not include {}", layer, name.substr(1))));
    }
  }
  return findings;
}

Findings parts_named_outside(const Tree& tree) {
  Findings findings;
  for (const SourceFile& file : tree) {
    const bool searched =
        is_engine(file.path) || starts_with(file.path, "gui/") || is_cmake(file.path);
    if (!searched || is_catalogue(file.path)) continue;
    const std::vector<std::string> lines = lines_of(file.text);
    for (const std::string& part : part_names(tree)) {
      if (is_element_word(layer_of(file.path), part) || is_dump_word(file.path, part)) continue;
      const std::vector<std::string> name = words_of(part);
      for (std::size_t i = 0; i < lines.size(); ++i) {
        if (!has_words(words_of(without_keyword(lines[i])), name)) continue;
        findings.push_back(finding(file, i, fmt::format("names the part {}", part)));
      }
    }
  }
  return findings;
}

Findings graphics_in_engine(const Tree& tree) {
  Findings findings;
  for (const SourceFile& file : tree) {
    if (!is_cpp(file.path) || !(is_engine(file.path) || is_part(file.path))) continue;
    const std::vector<std::string> lines = lines_of(file.text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      const std::string_view name = included_name(lines[i]);
      if (name.empty()) continue;
      const std::string_view head = name.substr(1, name.find_first_of("/.") - 1);
      if (kGraphicsHeads.count(head) == 0) continue;
      findings.push_back(finding(file, i, fmt::format("includes {}", name.substr(1))));
    }
  }
  return findings;
}

Findings unrepeatable_calls(const Tree& tree) {
  return judge_identifiers(tree, [](const SourceFile& file, const Identifier& it) -> std::string {
    if (it.is_member) return {};
    if (it.is_called && kMachineDependent.count(it.name) != 0 && !is_list_of_events(file, it)) {
      return fmt::format("{}() differs between machines; use sim/base/math.hpp", it.name);
    }
    if (kUnrepeatable.count(it.name) != 0 || ends_with(it.name, "_distribution")) {
      return fmt::format("{} is not repeatable", it.name);
    }
    if (kWallClocks.count(it.name) != 0 && !starts_with(file.path, "sim/cli/")) {
      return fmt::format("{} reads the wall clock outside sim/cli", it.name);
    }
    return {};
  });
}

Findings unordered_containers(const Tree& tree) {
  return judge_identifiers(tree, [](const SourceFile& file, const Identifier& it) -> std::string {
    if (!starts_with(it.name, "unordered_") || kMayHashByKey.count(file.path) != 0) return {};
    return fmt::format("{} has no fixed order", it.name);
  });
}

Findings untranslated_words(const Tree& tree) {
  // A letter alone is a sign, as on a button that closes something.
  static const std::regex kShown(
      R"re((ImGui::(Button|SmallButton|Text\w*|BulletText|Checkbox|RadioButton|MenuItem|Selectable)|)re"
      R"re(show_(text|second|tip|heading|label)|panel_(title|heading))\(([\w.>-]+, )?"[A-Za-z][^"#])re");
  Findings findings;
  for (const SourceFile& file : tree) {
    if (!is_cpp(file.path) || !starts_with(file.path, "gui/")) continue;
    const std::vector<std::string> lines = lines_of(file.text);
    for (std::size_t i = 0; i < lines.size(); ++i) {
      if (std::regex_search(lines[i], kShown))
        findings.push_back(
            finding(file, i, "words that no language translates; write tr(\"...\")"));
    }
  }
  return findings;
}

Findings overlong_files(const Tree& tree) {
  Findings findings;
  for (const SourceFile& file : tree) {
    if (!is_cpp(file.path)) continue;
    const std::size_t count = lines_of(file.text).size();
    if (count <= kLongestFile) continue;
    findings.push_back(
        finding(file, count - 1, fmt::format("{} lines; {} are the most", count, kLongestFile)));
  }
  return findings;
}

}  // namespace sixty::style
