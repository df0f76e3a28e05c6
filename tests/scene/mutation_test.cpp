#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "tests/scene/fake_parts.hpp"
#include "tests/scene/mutation.hpp"
#include "tests/scene/scene_files.hpp"

namespace sixty {
namespace {

using fake::mutated;

void check_outcome(const std::string& text, const Registry& registry) {
  const fake::Loaded loaded = fake::load_text(text, registry);
  // Either a whole installation or mistakes, each with its place.
  RC_ASSERT((loaded.scene != nullptr) == loaded.diagnostics.empty());
  for (const Diagnostic& d : loaded.diagnostics.list()) {
    RC_ASSERT(!d.what.empty());
    RC_ASSERT(!d.file.empty());
  }
}

RC_GTEST_PROP(MutationTest, AnyChangeToASceneGivesASceneOrMistakes, ()) {
  const Registry& registry = fake::registry();
  std::string text = fake::text_of(fake::beside("good/everything.yaml"));
  const int changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) text = mutated(text);
  check_outcome(text, registry);
}

RC_GTEST_PROP(MutationTest, AnyChangeToLinesGivesASceneOrMistakes, ()) {
  std::string text = fake::text_of(fake::beside("good/lines.yaml"));
  const int changes = *rc::gen::inRange(1, 6);
  for (int i = 0; i < changes; ++i) text = mutated(text);
  check_outcome(text, fake::registry());
}

RC_GTEST_PROP(MutationTest, AnyChangeToADataSheetGivesASceneOrMistakes, ()) {
  std::string sheet = fake::lamp_sheet();
  const int changes = *rc::gen::inRange(1, 4);
  for (int i = 0; i < changes; ++i) sheet = mutated(sheet);
  check_outcome("scene: Lamp\nstart: 2026-01-05\nparts:\n  one: {type: lamp, sheet: small}\n",
                fake::registry_with_sheet(sheet));
}

RC_GTEST_PROP(MutationTest, AnyChangeOnTheCommandLineGivesASceneOrMistakes, ()) {
  SceneChanges changes;
  changes.set = {mutated("lamp_1.resistance=90 ohm"), mutated("lamp_1.colour=red")};
  changes.action = {mutated("Mon 08:15 lamp_1.dim 30 %"), mutated("5 s wheel.turn 2 deg")};
  Diagnostics diagnostics;
  const Registry& registry = fake::registry();
  const auto scene =
      load_scene(fake::beside("good/everything.yaml"), registry, changes, diagnostics);
  RC_ASSERT((scene != nullptr) == diagnostics.empty());
}

}  // namespace
}  // namespace sixty
