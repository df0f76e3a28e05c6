#include "sim/scene/yaml_document.hpp"

#include <gtest/gtest.h>
#include <pthread.h>
#include <rapidcheck/gtest.h>
#include <sys/stat.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "sim/base/text.hpp"

namespace sixty {
namespace {

YamlNode read(const std::string& text) {
  Diagnostics diagnostics;
  const std::optional<YamlNode> node = parse_yaml(text, "f.yaml", diagnostics);
  EXPECT_TRUE(node) << printable(text) << "\n" << diagnostics.to_text();
  EXPECT_TRUE(diagnostics.empty());
  return node.value_or(YamlNode{});
}

std::vector<Diagnostic> mistakes(const std::string& text) {
  Diagnostics diagnostics;
  EXPECT_FALSE(parse_yaml(text, "f.yaml", diagnostics)) << printable(text);
  EXPECT_FALSE(diagnostics.empty()) << printable(text);
  for (const Diagnostic& d : diagnostics.list()) {
    EXPECT_EQ(d.file, "f.yaml");
    EXPECT_GT(d.line, 0) << d.what;
    EXPECT_GT(d.column, 0) << d.what;
    EXPECT_FALSE(d.mend.empty()) << d.what;
  }
  return diagnostics.list();
}

// "line:column what" of the first mistake.
std::string mistake(const std::string& text) {
  const std::vector<Diagnostic> all = mistakes(text);
  if (all.empty()) return "";
  return std::to_string(all[0].line) + ":" + std::to_string(all[0].column) + " " + all[0].what;
}

std::string repeated(const std::string& piece, std::size_t times) {
  std::string text;
  for (std::size_t i = 0; i < times; ++i) text += piece;
  return text;
}

constexpr const char* kNeverClosed = " is never closed";

TEST(YamlTest, ScalarsListsAndMapsKeepTheirPlaces) {
  const YamlNode root = read("a: 24 V # comment\nb:\n  - 1\n  - 'two'\nc: {d: [x, \"y\"]}\n");
  ASSERT_EQ(root.kind, YamlNode::kMap);
  ASSERT_EQ(root.entries.size(), 3U);
  EXPECT_EQ(root.entries[0].key.scalar, "a");
  const YamlNode* a = root.find("a");
  ASSERT_NE(a, nullptr);
  EXPECT_EQ(a->kind, YamlNode::kScalar);
  EXPECT_EQ(a->scalar, "24 V");
  EXPECT_EQ(a->line, 1);
  EXPECT_EQ(a->column, 4);
  EXPECT_FALSE(a->quoted);
  const YamlNode* b = root.find("b");
  ASSERT_NE(b, nullptr);
  ASSERT_EQ(b->items.size(), 2U);
  EXPECT_EQ(b->items[1].scalar, "two");
  EXPECT_TRUE(b->items[1].quoted);
  EXPECT_EQ(b->items[1].line, 4);
  EXPECT_EQ(b->items[1].column, 5);
  const YamlNode* c = root.find("c");
  ASSERT_NE(c, nullptr);
  ASSERT_NE(c->find("d"), nullptr);
  EXPECT_EQ(c->find("d")->items[1].scalar, "y");
  EXPECT_EQ(root.find("z"), nullptr);
  EXPECT_EQ(b->find("a"), nullptr);
}

TEST(YamlTest, ColumnsCountBytes) { EXPECT_EQ(read("{\xC3\xA9: x}").entries[0].value.column, 6); }

TEST(YamlTest, AnAbsentValueStandsWhereItsKeyDoes) {
  const YamlNode root = read("a: 1\nb:\n\n\nc: ~\nd: null\n");
  EXPECT_EQ(root.find("b")->kind, YamlNode::kNull);
  EXPECT_EQ(root.find("b")->line, 2);
  EXPECT_EQ(root.find("b")->column, 1);
  EXPECT_EQ(root.find("c")->kind, YamlNode::kNull);
  EXPECT_EQ(root.find("c")->column, 4);
  EXPECT_EQ(root.find("d")->kind, YamlNode::kNull);
  EXPECT_EQ(read("a:\n  -\n  - x\n").find("a")->items[0].line, 2);
}

TEST(YamlTest, QuotedTextIsNeverNull) {
  const YamlNode root = read("a: \"null\"\nb: ''\nc: |\n  text\n");
  EXPECT_EQ(root.find("a")->scalar, "null");
  EXPECT_EQ(root.find("b")->kind, YamlNode::kScalar);
  EXPECT_EQ(root.find("c")->scalar, "text\n");
  EXPECT_TRUE(root.find("c")->quoted);
}

TEST(YamlTest, QuotesWithinQuotesAreUnderstood) {
  const YamlNode root = read("a: 'it''s'\nb: \"a \\\" b\"\nc: it's\nd: \"\\\\\"\ne: 5\" pipe\n");
  EXPECT_EQ(root.find("a")->scalar, "it's");
  EXPECT_EQ(root.find("b")->scalar, "a \" b");
  EXPECT_EQ(root.find("c")->scalar, "it's");
  EXPECT_EQ(root.find("d")->scalar, "\\");
  EXPECT_EQ(root.find("e")->scalar, "5\" pipe");
}

TEST(YamlTest, UsualVariantsOfAFileAreAccepted) {
  EXPECT_EQ(read("\xEF\xBB\xBF"
                 "a: \"x\"\n")
                .find("a")
                ->column,
            4);
  EXPECT_EQ(read("a: 1\r\nb: 2\r\n").find("b")->scalar, "2");
  EXPECT_EQ(read("%YAML 1.2\n---\na: 1\n...\n").find("a")->scalar, "1");
  EXPECT_EQ(read("a:\t1").find("a")->scalar, "1");
  EXPECT_EQ(read("# comment\n\n- a\n").items.size(), 1U);
  EXPECT_EQ(read("plain").scalar, "plain");
  EXPECT_TRUE(read("{}").entries.empty());
}

TEST(YamlTest, BracketsWithinWordsAreNotBrackets) {
  EXPECT_EQ(read("a: x[y\nb: z{\nc: \"[[[\"\nd: 1 # [[\n").find("a")->scalar, "x[y");
}

// The next tests keep the table of inputs that are dangerous for the parser or what follows it.
TEST(YamlTest, DeepNestingIsRefusedWhereItBegins) {
  for (const std::size_t times : {40U, 1'000U, 20'000U}) {
    EXPECT_EQ(mistake(repeated("[", times)), std::string("1:1 the bracket [") + kNeverClosed);
    EXPECT_EQ(mistake("a: " + repeated("{", times)),
              std::string("1:4 the bracket {") + kNeverClosed);
    EXPECT_EQ(mistake(repeated("{a: ", times)), std::string("1:1 the bracket {") + kNeverClosed);
    EXPECT_EQ(mistake(repeated("- ", times)), "1:65 values are nested too deep");
    EXPECT_EQ(mistake(repeated("? ", times)), "1:65 values are nested too deep");
  }
  const std::string closed = repeated("[", 33) + repeated("]", 33);
  EXPECT_EQ(mistake(closed), "1:33 values are nested too deep");
  EXPECT_EQ(read(repeated("[", 32) + repeated("]", 32)).kind, YamlNode::kList);
  EXPECT_EQ(mistake(repeated("[", 100'000)),
            "1:80001 there are too many commas, colons and brackets");
}

TEST(YamlTest, AnchorsAndAliasesAreRefused) {
  EXPECT_EQ(mistake("a: &a [*a]"), "1:4 anchors are not read");
  EXPECT_EQ(mistake("&a {b: *a}"), "1:1 anchors are not read");
  EXPECT_EQ(mistake("&a {*a : 1}"), "1:1 anchors are not read");
  EXPECT_EQ(mistake("a: *b"), "1:4 aliases are not read");
  EXPECT_EQ(mistake("a: &b\n"), "1:4 anchors are not read");
  EXPECT_EQ(mistakes("a: &b 1\nc: *b\n").size(), 2U);
  std::string laughs = "a0: &a0 x\n";
  for (int i = 1; i < 10; ++i) {
    const std::string last = "*a" + std::to_string(i - 1);
    laughs += "a" + std::to_string(i) + ": &a" + std::to_string(i) + " [" +
              repeated(last + ", ", 9) + last + "]\n";
  }
  EXPECT_EQ(mistakes(laughs).size(), 50U);
}

TEST(YamlTest, TagsAndMergeKeysAreRefused) {
  EXPECT_EQ(mistake("a: !!str 1"), "1:4 tags are not read");
  EXPECT_EQ(mistake("a: !x [1]"), "1:4 tags are not read");
  EXPECT_EQ(mistake("!x {a: 1}"), "1:1 tags are not read");
  EXPECT_EQ(mistake("%TAG ! x\n---\na: !b 1\n"), "3:4 tags are not read");
  EXPECT_EQ(mistake("b: {c: 1}\n<<: {d: 1}\n"), "2:1 merging with << is not read");
}

TEST(YamlTest, WhatWouldTakeMuchMemoryIsRefused) {
  EXPECT_EQ(mistake("[" + repeated(":,", 60'000)),
            "1:80001 there are too many commas, colons and brackets");
  EXPECT_EQ(mistakes("[" + repeated(":,", 15'000) + "]").size(), 50U);
  EXPECT_EQ(mistake("[" + repeated("1,", 25'000) + "]"), "1:40000 the file holds too many values");
  EXPECT_EQ(mistake(repeated("- a\n", 25'000)), "20000:3 the file holds too many values");
  EXPECT_EQ(read(repeated("- a\n", 19'999)).items.size(), 19'999U);
}

TEST(YamlTest, LargeTextsAreRefused) {
  EXPECT_EQ(mistake("a: " + std::string(4097, 'x')), "1:4 the text is too long");
  EXPECT_EQ(read("a: " + std::string(4096, 'x')).find("a")->scalar.size(), 4096U);
  EXPECT_EQ(mistake("? " + std::string(5000, 'k') + "\n: 1"), "1:3 the text is too long");
  EXPECT_EQ(mistake("a: 1 #" + std::string(256 * 1024, 'x')), "1:1 the file is too large");
  EXPECT_EQ(read("a: 1 #" + std::string(256 * 1024 - 6, 'x')).find("a")->scalar, "1");
  EXPECT_EQ(read("a: 1" + std::string(250'000, '\n')).find("a")->scalar, "1");
  EXPECT_EQ(read("a: 1" + std::string(250'000, ' ')).find("a")->scalar, "1");
}

TEST(YamlTest, AKeyComesOnce) {
  EXPECT_EQ(mistake("a: 1\nb: 2\na: 3\n"), "3:1 the key \"a\" comes twice");
  EXPECT_EQ(mistakes("a: 1\na: 3\n")[0].mend, "line 1 has it already");
  EXPECT_EQ(mistake("{a: 1, \"a\": 2}"), "1:8 the key \"a\" comes twice");
  EXPECT_EQ(read("a: {x: 1}\nb: {x: 1}\n").entries.size(), 2U);
}

TEST(YamlTest, OnlyTextsAreKeys) {
  EXPECT_EQ(mistake("? [a]\n: b\n"), "1:3 a key is not a text");
  EXPECT_EQ(mistake("{{a: 1}: 2}"), "1:2 a key is not a text");
  EXPECT_EQ(mistake(": b\n"), "1:1 a key is not a text");
  EXPECT_EQ(mistake("~: b\n"), "1:1 a key is not a text");
  EXPECT_EQ(mistake("'': b\n"), "1:1 a key is not a text");
}

TEST(YamlTest, NothingIsDroppedWithoutAWord) {
  EXPECT_EQ(mistake("- a\nb: 1\n"), "2:1 text follows after the end of the document");
  EXPECT_EQ(mistake("a: 1\n---\nb: 1\n"), "2:1 a second document begins");
  EXPECT_EQ(mistake("a: 1\n---\n"), "2:1 a second document begins");
  EXPECT_EQ(mistake("a: 1\n...\nb: 2\n"), "3:1 text follows after the end of the document");
  EXPECT_EQ(mistake("[a] b"), "1:5 text follows after the end of the document");
  EXPECT_EQ(mistake("  a: 1\nb: 2\n"), "2:1 text follows after the end of the document");
}

TEST(YamlTest, OnlyUtf8TextIsRead) {
  EXPECT_EQ(mistake("a: 1\nb: \xFF\n"), "2:4 this is not UTF-8 text");
  EXPECT_EQ(mistake("a: \xC0\x80"), "1:4 this is not UTF-8 text");
  EXPECT_EQ(mistake("a: \xED\xA0\x80"), "1:4 this is not UTF-8 text");
  EXPECT_EQ(mistake(std::string("a: \0x", 5)), "1:4 a control character");
  EXPECT_EQ(mistake("a: \x1b[2J"), "1:4 a control character");
  EXPECT_EQ(mistake(std::string("\xFF\xFE"
                                "a\0:\0",
                                6)),
            "1:1 this is not UTF-8 text");
  EXPECT_EQ(mistake("a: \"\\0\""), "1:4 the text holds a control character");
  EXPECT_EQ(mistake("a: \"\\x1b[2J\""), "1:4 the text holds a control character");
  EXPECT_EQ(mistake("a: 1\rb: 2\r"), "1:5 a line ends with a carriage return alone");
}

TEST(YamlTest, EmptyFilesAreRefused) {
  for (const char* text : {"", "\n", "# only a comment\n", "---\n", "~", "\xEF\xBB\xBF"})
    EXPECT_EQ(mistake(text), "1:1 the file is empty") << text;
}

TEST(YamlTest, SyntaxErrorsAreTracedToTheirCause) {
  EXPECT_EQ(mistake("a: [1, 2\nb: 3\n"), std::string("1:4 the bracket [") + kNeverClosed);
  EXPECT_EQ(mistake("a: {b: 1\nc: [1]\n"), std::string("1:4 the bracket {") + kNeverClosed);
  EXPECT_EQ(mistake("a: [1, 2}\n"), "1:9 } closes the bracket [ of line 1, column 4");
  EXPECT_EQ(mistake("a: {b: [1, 2}\n"), "1:13 } closes the bracket [ of line 1, column 8");
  EXPECT_EQ(mistake("a: [\"]\", ']' # ]\nb: 1\n"), std::string("1:4 the bracket [") + kNeverClosed);
  EXPECT_EQ(mistake("a: \"open\nb: 3\n"), "1:4 the quotes that open here are never closed");
  EXPECT_EQ(mistake("a: 'open\nb: it''s\n"), "1:4 the quotes that open here are never closed");
  EXPECT_EQ(mistake("a: \"x\\\"\n"), "1:4 the quotes that open here are never closed");
  EXPECT_EQ(mistake("\xEF\xBB\xBF"
                    "a: 'x\n"),
            "1:4 the quotes that open here are never closed");
  EXPECT_EQ(mistake("a:\n\tb: 1\n"), "2:1 a tab stands in the indentation");
  EXPECT_EQ(mistake("a: b: c\n"), "1:5 a colon stands where no key can be");
  EXPECT_EQ(mistake("a: ]\n"), "1:4 this bracket closes nothing");
  EXPECT_EQ(mistake("a: @x\n"), "1:4 a value cannot begin with this character");
  EXPECT_EQ(mistake("a: \"\\q\"\n"), "1:7 nothing is known by this escape");
  EXPECT_EQ(mistake("a: - b\n"), "1:4 a list cannot begin here");
  EXPECT_EQ(mistake("- a: 1\n b: 2\n"), "2:2 this does not belong to the list above");
  EXPECT_EQ(mistake("a:\n  b: 1\n c: 2\n"), "3:2 this does not belong to the map above");
}

TEST(YamlTest, AllMistakesThatCanBeToldApartComeInOneGo) {
  const std::vector<Diagnostic> all = mistakes("a: &x 1\na: 2\nb: !t 3\n? [k]\n: 4\nc: \"\\0\"\n");
  std::vector<int> lines;
  for (const Diagnostic& d : all) lines.push_back(d.line);
  EXPECT_EQ(lines, (std::vector<int>{1, 2, 3, 4, 6}));
}

class YamlFileTest : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = ::testing::TempDir() + "sixty-yaml-XXXXXX";
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::string folder_;
};

TEST_F(YamlFileTest, AFileIsReadLikeItsText) {
  const std::string path = folder_ + "/f.yaml";
  std::ofstream(path) << "a: 1\n";
  Diagnostics diagnostics;
  const std::optional<YamlNode> node = read_yaml(path, diagnostics);
  ASSERT_TRUE(node) << diagnostics.to_text();
  EXPECT_EQ(node->find("a")->scalar, "1");
  std::ofstream(path) << "a: [\n";
  EXPECT_FALSE(read_yaml(path, diagnostics));
  EXPECT_EQ(diagnostics.list()[0].file, path);
}

TEST_F(YamlFileTest, WhatIsNoFileIsRefused) {
  ASSERT_EQ(::mkfifo((folder_ + "/pipe").c_str(), 0600), 0);
  std::ofstream(folder_ + "/large") << std::string(300'000, '#');
  for (const char* name : {"/pipe", "", "/missing", "/large"}) {
    Diagnostics diagnostics;
    EXPECT_FALSE(read_yaml(folder_ + name, diagnostics)) << name;
    EXPECT_EQ(diagnostics.list().size(), 1U) << name;
  }
}

// Programs read files on threads too, whose stacks may be small.
TEST(YamlTest, ASmallStackSuffices) {
  pthread_attr_t attributes;
  ASSERT_EQ(pthread_attr_init(&attributes), 0);
  ASSERT_EQ(pthread_attr_setstacksize(&attributes, 256 * 1024), 0);
  const auto work = [](void*) -> void* {
    Diagnostics diagnostics;
    for (const char* piece : {"[", "{", "- ", "? ", "{a: "})
      parse_yaml(repeated(piece, 20'000), "f.yaml", diagnostics);
    return nullptr;
  };
  pthread_t thread;
  ASSERT_EQ(pthread_create(&thread, &attributes, work, nullptr), 0);
  pthread_join(thread, nullptr);
  pthread_attr_destroy(&attributes);
}

RC_GTEST_PROP(YamlTest, AnyMixtureOfPiecesGivesATreeOrAPlace, ()) {
  const auto pieces = *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
      "a", "b", ":", " ", "\n", "- ", "? ", "[", "]", "{", "}", ",", "\"", "'", "#", "|", ">", "&x",
      "*x", "!t", "---\n", "...\n", "  ", "\t", "%", "\\", "1", "~", "<<", "\xC3\xA9", "\xFF",
      "\r\n", "@"));
  std::string text;
  for (const std::string& piece : pieces) text += piece;
  Diagnostics diagnostics;
  const std::optional<YamlNode> node = parse_yaml(text, "f.yaml", diagnostics);
  RC_ASSERT(node.has_value() == diagnostics.empty());
  for (const Diagnostic& d : diagnostics.list()) RC_ASSERT((d.line > 0 && d.column > 0));
}

// A tree of maps and texts, written as flow and read again.
std::string written(int depth, int& count) {
  if (depth == 0) return "'" + std::to_string(count++) + "'";
  std::string text = depth % 2 == 0 ? "{" : "[";
  for (int i = *rc::gen::inRange(0, 4); i > 0; --i) {
    if (depth % 2 == 0) text += "k" + std::to_string(i) + ": ";
    text += written(*rc::gen::inRange(0, depth), count) + ", ";
  }
  return text + (depth % 2 == 0 ? "}" : "]");
}

int leaves(const YamlNode& node) {
  int sum = node.kind == YamlNode::kScalar ? 1 : 0;
  for (const YamlNode& item : node.items) sum += leaves(item);
  for (const auto& [key, value] : node.entries) sum += leaves(value);
  return sum;
}

RC_GTEST_PROP(YamlTest, NoValueIsLost, ()) {
  int count = 0;
  const std::string text = written(*rc::gen::inRange(1, 7), count);
  Diagnostics diagnostics;
  const std::optional<YamlNode> node = parse_yaml(text, "f.yaml", diagnostics);
  RC_ASSERT(node.has_value());
  RC_ASSERT(leaves(*node) == count);
}

}  // namespace
}  // namespace sixty
