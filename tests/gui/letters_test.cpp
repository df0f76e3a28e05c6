// Letters as the screen gets them, against the room that is laid out for them.
#include "gui/paint/letters.hpp"

#include <gtest/gtest.h>

#include <cstdlib>

#include "gui/paint/text_width.hpp"
#include "tests/gui/worked_window.hpp"

namespace sixty::gui {
namespace {

constexpr const char* kNames[] = {"escape wheel",       "sensing fingers",
                                  "7 x 210 min fast",   "rewind, current: not yet known",
                                  "Mon 08:30:05.062",   "ground floor 12 in parallel",
                                  "contact resistance", "zone relay 1"};
constexpr float kRounding = 1;  // pixels

TEST(LettersTest, TakeNoMoreRoomThanIsLaidOutForThem) {
  drives_a_display = true;
  ASSERT_FALSE(display().number().empty());
  setenv("DISPLAY", (":" + display().number()).c_str(), 1);
  Letters letters;
  ASSERT_EQ(letters.error(), "");
  for (const float scale : {1.0F, 1.5F, 2.0F}) {
    letters.set_scale(scale);
    for (int size = 9; size <= 24; ++size) {
      for (const char* name : kNames) {
        for (const bool bold : {false, true}) {
          const auto em = static_cast<float>(size);
          EXPECT_LE(letters.width(name, em, bold), text_width(name, em, bold) + kRounding)
              << name << " of " << size << " pixels, bold " << bold << ", scale " << scale;
        }
      }
    }
  }
}

}  // namespace
}  // namespace sixty::gui
