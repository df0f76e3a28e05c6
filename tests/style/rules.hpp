#pragma once

#include <string>
#include <vector>

/// The rules that keep the tree in order, as functions over source text, so that each can be tried
/// on a small made-up tree as well as on the real one. Every finding is one line: "path:line:
/// what".
namespace sixty::style {

struct SourceFile {
  std::string path;  ///< from the top of the tree, with slashes
  std::string text;
};

using Tree = std::vector<SourceFile>;
using Findings = std::vector<std::string>;

/// All of the tree that people write by hand under sim, models, gui and tests, and every CMake
/// file, in order of path.
Tree read_tree(const std::string& root);

/// The folder names under models/ that hold a source, in order.
std::vector<std::string> part_names(const Tree& tree);

/// Includes that point against the table of layers.
Findings wrong_includes(const Tree& tree);

/// Words of a part type outside its own folder, the tests and the scenes. A part's name is found
/// however it is spelled: program_tape, ProgramTape, program-tape, "program tapes".
Findings parts_named_outside(const Tree& tree);

/// Graphics libraries inside the engine.
Findings graphics_in_engine(const Tree& tree);

/// Calls whose result depends on the machine, the time of day or the library's version.
Findings unrepeatable_calls(const Tree& tree);

/// Containers that are walked in an order that nothing fixes.
Findings unordered_containers(const Tree& tree);

/// Words that the window shows as they stand in the source, past the catalogues of languages.
Findings untranslated_words(const Tree& tree);

/// C++ files of more lines than a reader wants to face.
Findings overlong_files(const Tree& tree);

}  // namespace sixty::style
