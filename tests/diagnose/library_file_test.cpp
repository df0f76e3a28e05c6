// A library on the disk: found again whole, or not trusted.
#include "sim/diagnose/library_file.hpp"

#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "tests/diagnose/bench_library.hpp"

namespace sixty::diagnose {
namespace {

class LibraryFile : public testing::Test {
 protected:
  LibraryFile() {
    std::string error;
    EXPECT_TRUE(write_library(bench_.library(), key_, path_, error)) << error;
    fresh_ = bench_.library();
    fresh_.runs.clear();
    fresh_.cases.clear();
    fresh_.sound.clear();
    fresh_.usual.clear();
  }
  ~LibraryFile() override { std::filesystem::remove(path_); }

  std::string bytes() const {
    std::ostringstream text;
    text << std::ifstream(path_, std::ios::binary).rdbuf();
    return text.str();
  }
  void put(const std::string& bytes) const {
    std::ofstream(path_, std::ios::binary | std::ios::trunc) << bytes;
  }

  const BenchLibrary& bench_ = BenchLibrary::get();
  std::uint64_t key_ = key_of(bench_.library(), bench_.plan());
  std::string path_ = testing::TempDir() + "kept-" +
                      testing::UnitTest::GetInstance()->current_test_info()->name() + ".library";
  Library fresh_;
};

TEST_F(LibraryFile, IsFoundAgainAsItWas) {
  ASSERT_TRUE(read_library(fresh_, key_, path_));
  const Library& kept = bench_.library();
  EXPECT_EQ(fresh_.sound, kept.sound);
  EXPECT_EQ(fresh_.watch.most_events_an_hour, kept.watch.most_events_an_hour);
  ASSERT_EQ(fresh_.cases.size(), kept.cases.size());
  for (std::size_t k = 0; k < kept.cases.size(); ++k) {
    EXPECT_EQ(fresh_.cases[k].suspect, kept.cases[k].suspect);
    EXPECT_EQ(fresh_.run_of(k).manner.severity, kept.run_of(k).manner.severity);
    EXPECT_EQ(fresh_.run_of(k).shows, kept.run_of(k).shows);
    EXPECT_EQ(fresh_.run_of(k).departures, kept.run_of(k).departures);
  }
  const std::vector<Observation> told{bench_.observed("at: bell, sign: silent")};
  EXPECT_EQ(rank(fresh_, told, {}).ranked.front().probability,
            rank(kept, told, {}).ranked.front().probability);
}

TEST_F(LibraryFile, OfSomethingElseIsNotTaken) {
  EXPECT_FALSE(read_library(fresh_, key_ + 1, path_));
  EXPECT_TRUE(fresh_.cases.empty());
}

TEST_F(LibraryFile, ThatIsDamagedAnywhereIsNotTrusted) {
  const std::string whole = bytes();
  for (std::size_t at = 0; at < whole.size(); at += 1 + whole.size() / 40) {
    std::string damaged = whole;
    damaged[at] = static_cast<char>(damaged[at] ^ 0x40);
    put(damaged);
    EXPECT_FALSE(read_library(fresh_, key_, path_)) << at;
    put(whole.substr(0, at));
    EXPECT_FALSE(read_library(fresh_, key_, path_)) << at;
  }
  EXPECT_TRUE(fresh_.cases.empty());
}

TEST_F(LibraryFile, OfAnInstallationWithAnotherValueHasAnotherKey) {
  LibraryPlan plan = bench_.plan();
  plan.changes.set = {"supply.emf=23 V"};
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const SignBook signs(bench_.registry(), mistakes);
  const FaultBook faults(bench_.registry(), mistakes);
  const auto other = open_library(plan, bench_.registry(), signs, faults, diagnostics);
  ASSERT_TRUE(other) << diagnostics.to_text();
  EXPECT_NE(key_of(*other, plan), key_);
}

}  // namespace
}  // namespace sixty::diagnose
