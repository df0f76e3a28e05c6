// What has its room in the window, at which size: no panel lies over the drawing that need not, and
// none scrolls that has no need to.
#include <imgui/imgui.h>
#include <imgui/imgui_internal.h>

#include "gui/bench/card.hpp"
#include "gui/views/ghost.hpp"
#include "gui/views/suspects.hpp"
#include "tests/gui/worked_window.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

class Room : public WorkedWindow {
 protected:
  void of_size(unsigned width, unsigned height) {
    options_.width = width;
    options_.height = height;
  }
  static const ImGuiWindow& panel(const char* name) {
    const ImGuiWindow* found = ImGui::FindWindowByName(name);
    EXPECT_NE(found, nullptr) << name;
    return *found;
  }
};

TEST_F(Room, ThePageOfKeysDoesNotScrollInAWindowOfAnySizeThatIsOfUse) {
  for (const auto& [width, height] : {std::pair(1280U, 800U), std::pair(800U, 600U)}) {
    of_size(width, height);
    window();
    hand("search --onlyvisible --name . windowsize --sync " + std::to_string(width) + " " +
         std::to_string(height));
    typed("key F1");
    typed("mousemove 5 5");
    EXPECT_FALSE(panel("###keys").ScrollbarY) << width;
    EXPECT_LT(panel("###keys").ScrollMax.y, 1) << width;
    typed("key F1");
  }
}

TEST_F(Room, InstrumentsWithACardLeaveTheDrawingItsRoom) {
  options_.view = "part:minute_relay";
  window();
  typed("key 2");
  typed("key i");
  typed("mousemove 5 5");
  EXPECT_GE(window().drawing().width, 800);
  const ImGuiWindow& card = panel("card");
  const ImGuiWindow& meters = panel("###instruments");
  EXPECT_LE(card.Pos.y + card.Size.y, meters.Pos.y);
  EXPECT_GE(meters.Pos.x, window().drawing().left + window().drawing().width);
  EXPECT_GE(meters.Size.x, MeterPanel::kWidth);
  EXPECT_FALSE(meters.ScrollbarY);
}

TEST_F(Room, InstrumentsInASmallWindowStandBesideTheDrawing) {
  of_size(800, 600);
  window();
  typed("key i");
  const ImGuiWindow& meters = panel("###instruments");
  EXPECT_GE(meters.Pos.x, window().drawing().left + window().drawing().width);
  typed("key i");
  EXPECT_EQ(window().drawing().width, 800);
}

TEST_F(Room, AllOffersToANewcomerAreSeenInASmallWindow) {
  of_size(800, 600);
  window().begin();
  for (int k = 0; k < 4; ++k) window().step();
  EXPECT_FALSE(panel("start").ScrollbarY);
  EXPECT_LT(panel("start").ScrollMax.y, 1);
}

TEST_F(Room, NamesOfTheDrawingEndWhereThePlotBegins) {
  options_.view = "part:minute_relay";
  window();
  for (int k = 0; k < 3; ++k) window().step();
  const sf::FloatRect drawing = window().drawing();
  EXPECT_LT(drawing.height, window().canvas().height);
  EXPECT_EQ(window().bench().look().clear_high.y, drawing.top + drawing.height);
}

/// Only the longest has a line of its own, above its numbers: nearly all stand beside theirs.
TEST_F(Room, NamesOfReadingsStandInOneLineBesideTheirNumberAndItsTwins) {
  const ImGuiTable* readings = readings_beside_twins("part:minute_relay", "40s");
  ASSERT_NE(readings, nullptr);
  const float line = ImGui::GetTextLineHeight() + 2 * readings->CellPaddingY;
  const float name = ImGui::GetTextLineHeightWithSpacing();
  const auto rows = static_cast<float>(window().bench().picture().readings.size() + 1);
  const float high = readings->RowPosY2 - readings->OuterRect.Min.y;
  EXPECT_GE(high, rows * line + name - 2);
  EXPECT_LE(high, rows * line + 2 * name + 2);
}

TEST(ReadingsBesideTwins, NeverMeetWhateverIsTold) {
  constexpr float kRoom = 280, kColumn = 80;
  for (float name = 20; name < 200; name += 9) {
    for (float now = 10; now < 130; now += 7) {
      for (float twin = 10; twin < 130; twin += 7) {
        const BesideTwin lies = beside_twin(kRoom, kColumn, name, now, twin);
        EXPECT_LE(lies.now_ends, kRoom - twin - 6);
        EXPECT_GE(lies.now_ends - now, lies.is_name_alone ? 0 : name + 6);
      }
    }
  }
  EXPECT_FALSE(beside_twin(kRoom, kColumn, 95, 75, 75).is_name_alone);
}

TEST(WordsOfAnOrder, AreThoseOfPeople) {
  EXPECT_EQ(words_of_order("V:minute_relay.coil"), "Volts, coil");
  EXPECT_EQ(words_of_order("ohm:bell_line"), "Ohms");
  EXPECT_EQ(words_of_order("listen:rewind"), "Listen");
}

/// A scene on the stage with some words where a flag would lie.
class Flags : public testing::Test {
 protected:
  Flags() : installation_(bench_scene()), session_(installation_), stage_(*installation_) {
    session_.seek(kSecond);
    stage_.look(session_);
  }
  /// The middle of the flag of the one tip, with words there or not.
  Pixel flag(std::optional<Pixel> words) {
    Painter painter(dark_theme(), case_camera(stage_, {1280, 800}), {1280, 800});
    if (words)
      painter.letters({"minute relay", *words, 13, sf::Color(), Lettering::Align::kMiddle, false});
    const PartId relay = installation_->find_id("minute_relay").value();
    Drawn drawn;
    drawn.add(relay);
    const std::string terminal = stage_.find(relay)->figure.terminals().begin()->first;
    const std::vector<MeterTip> tips{{relay, terminal, "A", MeterTip::Sign::kPlus}};
    paint_tips(stage_, tips, false, drawn, painter);
    return painter.letterings().back().at;
  }

  std::shared_ptr<const Installation> installation_;
  Session session_;
  Stage stage_;
};

TEST_F(Flags, OfAMetersTipDoNotLieOnWords) {
  const Pixel plain = flag(std::nullopt);
  const Pixel aside = flag(plain);
  EXPECT_GE(std::max(std::fabs(aside.x - plain.x), std::fabs(aside.y - plain.y)), 18);
}

TEST_F(Flags, OfAChainDoNotLieOnNames) {
  Painter painter(dark_theme(), case_camera(stage_, {960, 556}), {960, 556});
  paint_stage(stage_, *installation_, {}, painter);
  const std::vector<Lettering> names = painter.letterings();
  const PartId relay = installation_->find_id("minute_relay").value();
  const std::vector<PartId> chain{relay, relay, relay};
  paint_chain(stage_, chain, 0, painter);
  ASSERT_EQ(painter.letterings().size(), names.size() + chain.size());
  constexpr float kRadius = 13;
  for (std::size_t k = names.size(); k < painter.letterings().size(); ++k) {
    const Pixel at = painter.letterings()[k].at;
    for (const Lettering& name : names) {
      const auto [low, high] = extent_of(name);
      EXPECT_FALSE(low.x < at.x + kRadius && high.x > at.x - kRadius && low.y < at.y + kRadius &&
                   high.y > at.y - kRadius)
          << name.text;
    }
  }
}

/// Where several links are about one part, their frames are the same.
TEST_F(Flags, OfAChainTheLitOneLiesOverTheOthers) {
  const PartId relay = installation_->find_id("minute_relay").value();
  const std::vector<PartId> chain{relay, relay, relay};
  for (std::size_t lit = 0; lit < chain.size(); ++lit) {
    Painter painter(dark_theme(), case_camera(stage_, {960, 556}), {960, 556});
    paint_chain(stage_, chain, lit, painter);
    ASSERT_EQ(painter.letterings().size(), chain.size());
    EXPECT_EQ(painter.letterings().back().text, std::to_string(lit + 1));
  }
}

/// The movement's frame is as high as the case, and names stand all about it.
TEST_F(Flags, FramesOfSuspectsGoThroughNoName) {
  Painter painter(dark_theme(), case_camera(stage_, {856, 556}), {856, 556});
  paint_stage(stage_, *installation_, {}, painter);
  const std::size_t before = painter.mesh().vertices().size();
  const std::vector<SuspectMark> marks{{installation_->find_id("movement").value(), 1, 0.02}};
  paint_suspects(stage_, marks, {Pixel(0, 0), Pixel(856, 556)}, painter);
  const std::vector<sf::Vertex>& all = painter.mesh().vertices();
  ASSERT_GT(all.size(), before);
  for (std::size_t k = before; k + 2 < all.size(); k += 3) {
    const Pixel a = all[k].position, b = all[k + 1].position, c = all[k + 2].position;
    for (const Lettering& name : painter.letterings()) {
      if (name.text.size() < 5) continue;  // the mark's own
      const auto [low, high] = extent_of(name);
      EXPECT_FALSE(std::max({a.x, b.x, c.x}) > low.x && std::min({a.x, b.x, c.x}) < high.x &&
                   std::max({a.y, b.y, c.y}) > low.y && std::min({a.y, b.y, c.y}) < high.y)
          << name.text;
    }
  }
}

TEST_F(Flags, OfWhatIsNotDrawnAreNotThere) {
  Painter painter(dark_theme(), case_camera(stage_, {1280, 800}), {1280, 800});
  const Look look;
  const Drawn drawn = paint_stage(stage_, *installation_, look, painter);
  const PartId clock = installation_->find_id("hall_clock").value();
  EXPECT_TRUE(drawn.has(installation_->find_id("minute_relay").value()));
  EXPECT_FALSE(drawn.has(clock));
  const std::size_t before = painter.letterings().size();
  const std::string terminal = stage_.find(clock)->figure.terminals().begin()->first;
  const std::vector<MeterTip> tips{{clock, terminal, "A", MeterTip::Sign::kPlus}};
  paint_tips(stage_, tips, true, drawn, painter);
  EXPECT_EQ(painter.letterings().size(), before);
}

}  // namespace
}  // namespace sixty::gui
