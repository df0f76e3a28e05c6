#include "sim/part/report.hpp"

#include <gmock/gmock.h>

#include <stdexcept>

namespace sixty {
namespace {

using testing::ElementsAre;

std::vector<std::string> keys_of(const Row& row) {
  std::vector<std::string> keys;
  for (const Cell& cell : row.cells()) keys.push_back(cell.key);
  return keys;
}

const Report::Section* find(const Report& report, const std::string& name) {
  for (const Report::Section& section : report.sections()) {
    if (section.name == name) return &section;
  }
  return nullptr;
}

Row lamp(std::int64_t lit) { return Row().count("lit", lit).put("volts", 6, "V"); }

std::string id_of(const Row& row) { return std::get<std::string>(row.cells().at(0).value); }
std::int64_t lit_of(const Row& row, std::size_t place) {
  return std::get<std::int64_t>(row.cells().at(place).value);
}

TEST(RowTest, NoKeyIsGivenTwice) {
  Row row;
  row.put("a", 1).count("b", 1).text("c", "x").flag("d", true).nothing("e");
  EXPECT_THROW(row.put("e", 1), std::logic_error);
  EXPECT_THROW(row.count("d", 1), std::logic_error);
  EXPECT_THROW(row.text("c", "y"), std::logic_error);
  EXPECT_THROW(row.flag("b", false), std::logic_error);
  EXPECT_THROW(row.nothing("a"), std::logic_error);
  EXPECT_THROW(row.all_of(Row().count("f", 1).count("a", 1)), std::logic_error);
  EXPECT_THAT(keys_of(row), ElementsAre("a", "b", "c", "d", "e", "f"));
}

TEST(ReportTest, PartsShareAnObjectByKeysOfTheirOwn) {
  Report report;
  report.object("room").count("lamps", 1);
  report.object("room").count("doors", 2);
  EXPECT_THAT(keys_of(report.object("room")), ElementsAre("lamps", "doors"));
  EXPECT_THROW(report.object("room").count("lamps", 3), std::logic_error);
}

TEST(ReportTest, ASectionIsAnObjectOrAList) {
  Report report;
  report.object("room");
  report.append("lamps");
  EXPECT_THROW(report.append("room"), std::logic_error);
  EXPECT_THROW(report.object("lamps"), std::logic_error);
}

TEST(ReportTest, OneOfAKindIsAnObject) {
  Report report;
  EXPECT_TRUE(report.one_of("lamp", "lamps", "left", lamp(3)));
  ASSERT_EQ(report.sections().size(), 1U);
  EXPECT_FALSE(report.sections()[0].list);
  EXPECT_THAT(keys_of(report.object("lamp")), ElementsAre("lit", "volts"));
}

TEST(ReportTest, OfSeveralOfAKindTheFirstIsTheObjectAndAllAreListed) {
  Report report;
  EXPECT_TRUE(report.one_of("lamp", "lamps", "left", lamp(3)));
  EXPECT_FALSE(report.one_of("lamp", "lamps", "middle", lamp(4)));
  EXPECT_FALSE(report.one_of("lamp", "lamps", "right", lamp(5)));
  EXPECT_TRUE(report.one_of("lamp", "switches", "only", Row().count("pressed", 1)));
  EXPECT_THAT(keys_of(report.object("lamp")), ElementsAre("lit", "volts", "pressed"));
  EXPECT_EQ(lit_of(report.object("lamp"), 0), 3);
  const Report::Section* lamps = find(report, "lamps");
  ASSERT_NE(lamps, nullptr);
  ASSERT_EQ(lamps->rows.size(), 3U);
  const std::pair<const char*, std::int64_t> expected[] = {
      {"left", 3}, {"middle", 4}, {"right", 5}};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_THAT(keys_of(lamps->rows[i]), ElementsAre("id", "lit", "volts"));
    EXPECT_EQ(id_of(lamps->rows[i]), expected[i].first);
    EXPECT_EQ(lit_of(lamps->rows[i], 1), expected[i].second);
  }
  EXPECT_EQ(find(report, "switches"), nullptr);
}

TEST(ReportTest, RowsTellTheRoomOfTheirPartWhereOneOfTheListHasOne) {
  Report report;
  report.append("lamps").text("id", "left").count("lit", 1);
  report.append("lamps").text("id", "right").count("lit", 2);
  report.append("wheels").text("id", "only").count("turns", 3);
  report.append("flashes").text("at", "left");
  report.tell_rooms({{"right", "hall"}});
  const std::vector<Row>& lamps = find(report, "lamps")->rows;
  EXPECT_THAT(keys_of(lamps[0]), ElementsAre("id", "lit", "room"));
  EXPECT_TRUE(std::holds_alternative<std::monostate>(lamps[0].cells()[2].value));
  EXPECT_EQ(std::get<std::string>(lamps[1].cells()[2].value), "hall");
  EXPECT_THAT(keys_of(find(report, "wheels")->rows[0]), ElementsAre("id", "turns"));
  EXPECT_THAT(keys_of(find(report, "flashes")->rows[0]), ElementsAre("at"));
}

}  // namespace
}  // namespace sixty
