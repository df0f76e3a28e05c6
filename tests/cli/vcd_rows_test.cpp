// The value change dump that the built program writes, line by line against the grammar, row by
// row. Published: IEEE Std 1364-2005, section 18.2 (FMT-24 from memory).
#include <gtest/gtest.h>

#include <algorithm>
#include <regex>
#include <set>
#include <sstream>

#include "tests/cli/child.hpp"
#include "tests/cli/folder.hpp"

namespace sixty::cli {
namespace {

Words words_of(const std::string& line) {
  std::istringstream stream(line);
  return {std::istream_iterator<std::string>(stream), {}};
}

class VcdRowsTest : public FolderTest {
 protected:
  void SetUp() override {
    FolderTest::SetUp();
    const std::string scene = SIXTY_SOURCE_DIR "/tests/cli/scenes/bench.yaml";
    const Ended ended =
        run_program_with({"run", scene, "--for", "2s", "--trace", path("t.vcd"), "--signals",
                          "relay.*,key.closed", "--sample", "100ms", "--json"});
    ASSERT_EQ(ended.code, 0) << ended.err;
    text = get("t.vcd");
    const std::size_t end = text.find("$enddefinitions");
    ASSERT_NE(end, std::string::npos);
    head = text.substr(0, end);
    const std::size_t body = text.find(" $end", end) + 5;
    std::istringstream stream(text.substr(body));
    for (std::string line; std::getline(stream, line);) {
      if (!line.empty()) lines.push_back(line);
    }
  }
  std::vector<Words> declared(const std::string& keyword) const {
    std::vector<Words> found;
    Words words = words_of(head);
    for (std::size_t i = 0; i < words.size(); ++i) {
      if (words[i] != keyword) continue;
      found.emplace_back();
      while (words.at(++i) != "$end") found.back().push_back(words[i]);
    }
    return found;
  }
  std::string text, head;
  std::vector<std::string> lines;  ///< of the simulation
};

TEST_F(VcdRowsTest, KeywordsAreThoseOfTheStandard) {
  const std::set<std::string> declarations = {"$comment", "$date",      "$enddefinitions",
                                              "$scope",   "$timescale", "$upscope",
                                              "$var",     "$version"};
  const std::set<std::string> simulation = {"$dumpall", "$dumpoff", "$dumpon", "$dumpvars"};
  int open = 0;
  for (const std::string& word : words_of(head)) {
    if (!std::regex_match(word, std::regex("[$][a-z]+")) || word == "$end") {
      open -= word == "$end" ? 1 : 0;
      continue;
    }
    EXPECT_EQ(declarations.count(word), 1U) << "FMT-19 " << word;
    ++open;
  }
  EXPECT_EQ(open, 0) << "FMT-19: each is closed by $end";
  EXPECT_EQ(declared("$var").empty(), false) << "FMT-19";
  bool dumped = false;
  for (const std::string& line : lines) {
    if (line[0] != '$' || line == "$end" || line.rfind("$comment", 0) == 0) continue;
    EXPECT_EQ(simulation.count(words_of(line)[0]), 1U) << "FMT-20 " << line;
    dumped = true;
  }
  EXPECT_TRUE(dumped) << "FMT-20";
}

TEST_F(VcdRowsTest, TimesAreAbsoluteAndGrow) {
  long long last = -1;
  int times = 0;
  for (const std::string& line : lines) {
    if (line[0] != '#') continue;
    ASSERT_TRUE(std::regex_match(line, std::regex("#[0-9]+"))) << "FMT-20 " << line;
    const long long at = std::stoll(line.substr(1));
    EXPECT_GT(at, last) << "FMT-20: not a step";
    last = at;
    ++times;
  }
  EXPECT_GT(times, 10);
  EXPECT_EQ(last, 2'000'000'000) << "FMT-20: two seconds in nanoseconds";
  for (const char* hand : {"#100000000", "#1000000000"}) {  // the key is worked at 0.1 and 1 s
    EXPECT_NE(std::find(lines.begin(), lines.end(), hand), lines.end()) << "FMT-20 " << hand;
  }
}

TEST_F(VcdRowsTest, TimescaleIsANumberAndAUnit) {
  const auto scales = declared("$timescale");
  ASSERT_EQ(scales.size(), 1U) << "FMT-21";
  std::string joined;
  for (const std::string& word : scales[0]) joined += word;
  EXPECT_TRUE(std::regex_match(joined, std::regex("(1|10|100)(s|ms|us|ns|ps|fs)"))) << "FMT-21";
}

TEST_F(VcdRowsTest, ChangesHaveTheFormOfTheirKind) {
  const std::regex scalar("[01xXzZ][!-~]+");
  const std::regex real("[rR]-?[0-9.]+([eE][-+]?[0-9]+)? [!-~]+");
  const std::regex vector("[bB][01xXzZ]+ [!-~]+");
  int scalars = 0;
  int reals = 0;
  for (const std::string& line : lines) {
    if (line[0] == '#' || line[0] == '$') continue;
    const bool is_scalar = std::regex_match(line, scalar);
    const bool is_real = std::regex_match(line, real);
    EXPECT_TRUE(is_scalar || is_real || std::regex_match(line, vector)) << "FMT-22 " << line;
    scalars += is_scalar ? 1 : 0;
    reals += is_real ? 1 : 0;
  }
  EXPECT_GT(scalars, 0) << "FMT-22";
  EXPECT_GT(reals, 0) << "FMT-22";
}

TEST_F(VcdRowsTest, ScopesAndVariablesHaveKnownTypes) {
  const std::set<std::string> scopes = {"begin", "fork", "function", "module", "task"};
  const std::set<std::string> types = {
      "event", "integer", "parameter", "real",   "realtime", "reg",  "supply0", "supply1", "time",
      "tri",   "triand",  "trior",     "trireg", "tri0",     "tri1", "wand",    "wire",    "wor"};
  for (const Words& scope : declared("$scope")) {
    EXPECT_EQ(scopes.count(scope.at(0)), 1U) << "FMT-23 " << scope.at(0);
  }
  for (const Words& variable : declared("$var")) {
    ASSERT_GE(variable.size(), 4U) << "FMT-23";
    EXPECT_EQ(types.count(variable[0]), 1U) << "FMT-23 " << variable[0];
  }
  EXPECT_EQ(declared("$scope").size(), declared("$upscope").size()) << "FMT-23";
}

TEST_F(VcdRowsTest, CodesArePrintableAndUnlikeEachOther) {
  std::set<std::string> codes;
  for (const Words& variable : declared("$var")) {
    for (const char c : variable.at(2)) {
      EXPECT_GE(c, 33) << "FMT-24";
      EXPECT_LE(c, 126) << "FMT-24";
    }
    EXPECT_TRUE(codes.insert(variable[2]).second) << "FMT-24 " << variable[2];
  }
}

}  // namespace
}  // namespace sixty::cli
