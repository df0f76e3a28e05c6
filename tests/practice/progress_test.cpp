// What learners have done: kept, read again, told to an instructor.
#include "sim/practice/progress.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <iterator>

namespace sixty::practice {
namespace {

namespace fs = std::filesystem;

class Kept : public testing::Test {
 protected:
  void SetUp() override {
    folder_ = (fs::path(testing::TempDir()) / ("learners-" + std::to_string(getpid()))).string();
    fs::remove_all(folder_);
  }
  void TearDown() override { fs::remove_all(folder_); }
  Learners learners() const { return Learners(folder_ + "/of/a/class"); }
  Progress read(const std::string& name) {
    told_.clear();
    const auto known = learners().read(name, told_);
    EXPECT_TRUE(known.has_value()) << told_;
    return known.value_or(Progress{});
  }
  std::string folder_, told_, error_;
};

Progress someone() {
  Progress one;
  one.learner = "Änne B.";
  one.steps = {{"01", "The chain", "order", false, 0, "2026-02-01T10:00:00"},
               {"01", "The chain", "order", true, 0, "2026-02-02T10:00:00"},
               {"01", "The chain", "hand", true, 2, "2026-02-02T10:05:00"},
               {"05", "Relays, \"slow\"", "volts", true, 0, "2026-02-03T10:00:00"}};
  one.hunts = {
      {"bench-minimal", "subtle", 7, true, true, 42, 30, 3, 1, 0, 2, "2026-02-04T10:00:00"}};
  return one;
}

TEST_F(Kept, WhatIsKeptIsReadAgain) {
  EXPECT_TRUE(read("Änne B.").steps.empty());
  ASSERT_TRUE(learners().write(someone(), error_)) << error_;
  const Progress again = read("Änne B.");
  EXPECT_EQ(told_, "");
  ASSERT_EQ(again.steps.size(), 4U);
  EXPECT_EQ(again.steps[3].topic, "Relays, \"slow\"");
  EXPECT_EQ(again.steps[2].hints, 2);
  ASSERT_EQ(again.hunts.size(), 1U);
  EXPECT_EQ(again.hunts[0].seed, 7U);
  EXPECT_EQ(again.hunts[0].good_parts, 2);
  EXPECT_EQ(learners().names(), std::vector<std::string>{"Änne B."});
}

TEST_F(Kept, ADamagedFileIsPutAsideAndNeverLost) {
  ASSERT_TRUE(learners().write(someone(), error_));
  const std::string path = learners().path_of("Änne B.");
  for (const char* damage : {"{\"format\": \"sixtybeats-learner/1\", \"lea", "{}", ""}) {
    std::ofstream(path, std::ios::trunc) << damage;
    EXPECT_TRUE(read("Änne B.").steps.empty());
    EXPECT_NE(told_.find(".damaged-"), std::string::npos) << told_;
    EXPECT_FALSE(fs::exists(path));
  }
  std::ifstream kept(path + ".damaged-1");
  EXPECT_EQ(std::string(std::istreambuf_iterator<char>(kept), {}),
            "{\"format\": \"sixtybeats-learner/1\", \"lea");
  EXPECT_TRUE(fs::exists(path + ".damaged-3"));
}

TEST_F(Kept, AFileOfAnotherVersionOrAnotherNameIsNeverWrittenOver) {
  ASSERT_TRUE(learners().write(someone(), error_));
  const std::string path = learners().path_of("Änne B.");
  fs::copy_file(path, learners().path_of("Ben"));
  EXPECT_EQ(read("Ben").learner, "Ben");
  std::ofstream(path, std::ios::trunc) << "{\"format\": \"sixtybeats-learner/2\"}";
  EXPECT_FALSE(learners().read("Änne B.", told_).has_value());
  EXPECT_TRUE(fs::exists(path));
  // Looking alone renames nothing.
  std::ofstream(path, std::ios::trunc) << "{";
  EXPECT_FALSE(learners().read("Änne B.", told_, false).has_value());
  EXPECT_TRUE(fs::exists(path));
}

TEST_F(Kept, WhoIsForgottenIsGone) {
  ASSERT_TRUE(learners().write(someone(), error_));
  EXPECT_FALSE(learners().forget("Nobody", error_));
  EXPECT_FALSE(learners().forget("../of/a/class/Änne B.", error_));
  EXPECT_TRUE(learners().forget("Änne B.", error_));
  EXPECT_TRUE(learners().names().empty());
}

TEST_F(Kept, NamesThatNoFileShouldBearAreRefused) {
  for (const char* name : {"", "../up", ".hidden", "a/b", "1st", "ends ", "a\nb"}) {
    EXPECT_FALSE(is_learner(name)) << name;
    Progress one;
    one.learner = name;
    EXPECT_FALSE(learners().write(one, error_)) << name;
  }
  for (const char* name : {"Ann", "Änne B.", "Группа 3", "a-b_c"})
    EXPECT_TRUE(is_learner(name)) << name;
}

TEST(Mastery, OfEachStepTheLastTimeCountsAndHintsHalveIt) {
  const auto all = mastery_of(someone());
  EXPECT_DOUBLE_EQ(all.at("The chain").share, 0.75);
  EXPECT_EQ(all.at("The chain").steps, 2);
  EXPECT_DOUBLE_EQ(all.at("Relays, \"slow\"").share, 1);
}

TEST(Export, CommasAndQuotesAreWrittenAsTheStandardHasIt) {
  EXPECT_EQ(progress_csv({someone()}),
            "learner,topic,steps,mastered_percent\r\n"
            "Änne B.,\"Relays, \"\"slow\"\"\",1,100\r\n"
            "Änne B.,The chain,2,75\r\n"
            "Änne B.,hunts,1,100\r\n");
}

TEST(Export, ThePageTellsTopicsAndHuntsAndEscapesNames) {
  Progress one = someone();
  one.learner = "A<b>";
  const std::string page = progress_html({one});
  EXPECT_NE(page.find("A&lt;b&gt;"), std::string::npos);
  EXPECT_NE(page.find("75 %"), std::string::npos);
  EXPECT_NE(page.find("mended and proved"), std::string::npos);
}

}  // namespace
}  // namespace sixty::practice
