// Names and leading lines on the drawing.
#include "gui/views/labels.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "gui/paint/text_width.hpp"

namespace sixty::gui {
namespace {

constexpr float kEm = 13;

TEST(BrokenLines, KeepANumberWithItsUnitAndWithWhatItIsUncertainBy) {
  const auto by_letters = [](const std::string& line) { return static_cast<float>(line.size()); };
  using Lines = std::vector<std::string>;
  EXPECT_EQ(broken_lines("The solenoid draws 0.97 A and winds.", 23, by_letters),
            (Lines{"The solenoid draws", "0.97 A and winds."}));
  EXPECT_EQ(broken_lines("least (26.37 ± 0.18) V", 20, by_letters),
            (Lines{"least", "(26.37 ± 0.18) V"}));
  EXPECT_EQ(broken_lines("takes 1 um to 20 mm.", 9, by_letters),
            (Lines{"takes", "1 um to", "20 mm."}));
  // Where even both together are too wide, they are parted.
  EXPECT_EQ(broken_lines("12 minutes", 8, by_letters), (Lines{"12", "minutes"}));
}

TEST(FittedLines, HoldANameInSoManyAndTellThatMoreIsThere) {
  const float room = text_width("A minute relay contact,", kEm);
  using Lines = std::vector<std::string>;
  EXPECT_EQ(fitted_lines("A minute relay contact, volts", room, kEm, false, 2),
            (Lines{"A minute relay contact,", "volts"}));
  const Lines one = fitted_lines("A minute relay contact, volts", room, kEm, false, 1);
  ASSERT_EQ(one.size(), 1U);
  EXPECT_EQ(one[0], "A minute relay contact,…");
  EXPECT_EQ(fitted_lines("arm b", room, kEm, false, 2), Lines{"arm b"});
}

TEST(FittedLines, AreCutBetweenLettersOfSeveralBytes) {
  const std::string omega = "\xCE\xA9", ellipsis = "\xE2\x80\xA6";
  std::string name;
  for (int k = 0; k < 40; ++k) name += omega;
  for (float room = 20; room < 60; room += 1) {
    const std::string line = fitted_lines(name, room, kEm, false, 1).at(0);
    ASSERT_TRUE(line.ends_with(ellipsis)) << room;
    const std::string left = line.substr(0, line.size() - ellipsis.size());
    EXPECT_EQ(left, name.substr(0, left.size())) << room;
    EXPECT_EQ(left.size() % omega.size(), 0U) << room;
  }
}

class LabelsTest : public testing::Test {
 protected:
  LabelsTest() : painter_(dark_theme(), Camera{{200, 150}, 1, {200, 150}}, {400, 300}) {}
  Labels labels() { return {{Pixel(0, 0), Pixel(400, 300)}, kEm, painter_}; }
  const Lettering& last() const { return painter_.letterings().back(); }
  static sf::Color ground() { return dark_theme().ground; }

  Painter painter_;
};

TEST_F(LabelsTest, WordsThatWouldLeaveTheDrawingAreMovedIntoIt) {
  Labels all = labels();
  all.put_piece({"escape wheel", {380, 100}, {395, 100}, false}, ground());
  EXPECT_LE(last().at.x + text_width("escape wheel", kEm), 400);
  all.put_piece({"escape wheel", {20, 200}, {5, 200}, false}, ground());
  EXPECT_GE(last().at.x - text_width("escape wheel", kEm), 0);
}

TEST_F(LabelsTest, OfAPieceThatIsNotSeenNothingIsTold) {
  Labels all = labels();
  all.put_piece({"spring", {500, 100}, {380, 100}, false}, ground());
  EXPECT_TRUE(painter_.letterings().empty());
}

TEST_F(LabelsTest, WordsDoNotLieOnOtherWords) {
  Labels all = labels();
  for (int k = 0; k < 3; ++k) all.put_piece({"winding", {100, 100}, {150, 100}, false}, ground());
  const std::vector<Lettering>& put = painter_.letterings();
  ASSERT_EQ(put.size(), 3U);
  for (std::size_t a = 0; a < put.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) EXPECT_GE(std::fabs(put[a].at.y - put[b].at.y), kEm);
  }
}

TEST_F(LabelsTest, ANameStandsAboveOrBelowItsPartAndNeverAcross) {
  Placed placed;
  placed.figure.box(Material::kBrass, {100, 100}, {200, 140});
  Labels all = labels();
  all.put_name("minute relay", placed, {150, 96}, ground());
  EXPECT_LE(last().at.y + 0.5F * kEm, 103);
  Placed narrow;
  narrow.figure.box(Material::kBrass, {120, 100}, {140, 140});
  all.put_name("main fuse", narrow, {130, 142}, ground());
  const std::vector<Lettering>& put = painter_.letterings();
  ASSERT_EQ(put.size(), 3U);
  EXPECT_EQ(put[1].text, "main");
  EXPECT_EQ(put[2].text, "fuse");
  EXPECT_GE(put[1].at.y - 0.5F * kEm, 142);
  EXPECT_GT(put[2].at.y, put[1].at.y);
}

TEST_F(LabelsTest, WhereThereIsNoRoomAboveOrBelowANameStandsToTheRightOfItsPart) {
  Placed placed;
  placed.figure.box(Material::kBrass, {100, 100}, {200, 120});
  labels().put_name_beside("minute relay", placed, ground());
  EXPECT_GT(last().at.x, 200);
  EXPECT_FLOAT_EQ(last().at.y, 110);
}

TEST_F(LabelsTest, ANameBesideItsPartIsBrokenAtTheEdgeOrLeftOut) {
  Placed placed;
  placed.figure.box(Material::kBrass, {200, 100}, {340, 120});
  Labels all = labels();
  all.put_name_beside("minute relay", placed, ground());
  ASSERT_EQ(painter_.letterings().size(), 2U);
  EXPECT_EQ(last().text, "relay");
  EXPECT_LE(last().at.x + text_width("relay", kEm), 400);
  Placed outermost;
  outermost.figure.box(Material::kBrass, {200, 200}, {395, 220});
  all.put_name_beside("minute relay", outermost, ground());
  EXPECT_EQ(painter_.letterings().size(), 2U);
}

TEST_F(LabelsTest, WhereWordsHaveLittleRoomThoseThatWouldLieOnOthersAreLeftOut) {
  Placed placed;
  placed.figure.box(Material::kBrass, {100, 100}, {200, 140});
  Labels all = labels();
  all.leave_out_what_meets(true);
  for (int k = 0; k < 3; ++k) all.put_name("minute relay", placed, {150, 142}, ground());
  EXPECT_EQ(painter_.letterings().size(), 2U);
}

TEST_F(LabelsTest, ANameThatHasNoRoomBelowItsPartStandsAboveIt) {
  Placed placed;
  placed.figure.box(Material::kBrass, {100, 100}, {200, 140});
  Labels all = labels();
  all.leave_out_what_meets(true);
  all.put_name("main fuse", placed, {150, 142}, ground());
  EXPECT_GT(last().at.y, 140);
  all.put_name("clock fuse", placed, {150, 142}, ground());
  EXPECT_EQ(last().text, "clock fuse");
  EXPECT_LE(last().at.y + 0.5F * kEm, 106);
}

TEST_F(LabelsTest, ANameInTwoLinesIsWhollyWithinTheDrawing) {
  Placed narrow;
  narrow.figure.box(Material::kBrass, {120, 240}, {140, 272});
  labels().put_name("main fuse", narrow, {130, 274}, ground());
  EXPECT_EQ(last().text, "fuse");
  EXPECT_LE(last().at.y + 0.5F * kEm, 300);
}

TEST_F(LabelsTest, WhatIsHardlySeenAtTheEdgeHasNoName) {
  Placed placed;
  placed.figure.box(Material::kBrass, {100, 280}, {200, 340});
  labels().put_name("zone relay", placed, {150, 276}, ground());
  EXPECT_TRUE(painter_.letterings().empty());
}

}  // namespace
}  // namespace sixty::gui
