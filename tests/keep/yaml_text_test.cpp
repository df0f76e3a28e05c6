// A file's text changed in place: what was asked for changes, and not one byte else.
#include "gui/keep/yaml_text.hpp"

#include <gtest/gtest.h>

namespace sixty::gui {
namespace {

YamlText read(const std::string& text) {
  Diagnostics mistakes;
  auto made = YamlText::read(text, "t.yaml", mistakes);
  EXPECT_TRUE(made) << mistakes.to_text();
  return *made;
}

TEST(YamlInPlace, AValueIsReplacedAndItsCommentStays) {
  YamlText t = read("a: 5 V  # as found\nb: {c: \"x, y\", d: 'it''s'}  # two\n");
  EXPECT_TRUE(t.set({}, "a", "6 V"));
  EXPECT_TRUE(t.set({"b"}, "c", "z"));
  EXPECT_TRUE(t.set({"b"}, "d", "\"w\""));
  EXPECT_EQ(t.text(), "a: 6 V  # as found\nb: {c: z, d: \"w\"}  # two\n");
}

TEST(YamlInPlace, AnEntryIsAddedBehindAnother) {
  YamlText t = read("p: {type: x, set: {}}\nq:\n  type: y  # so\n  set: {a: 1}\nr: 1\n");
  EXPECT_TRUE(t.set({"p"}, "sheet", "s", "type"));
  EXPECT_TRUE(t.set({"p", "set"}, "b", "2"));
  EXPECT_TRUE(t.set({"q"}, "sheet", "s", "type"));
  EXPECT_TRUE(t.set({"q", "set"}, "b", "[1, 2]"));
  EXPECT_TRUE(t.set({}, "last", "3"));
  EXPECT_EQ(t.text(),
            "p: {type: x, sheet: s, set: {b: 2}}\nq:\n  type: y  # so\n  sheet: s\n"
            "  set: {a: 1, b: [1, 2]}\nr: 1\nlast: 3\n");
}

TEST(YamlInPlace, AnEntryIsTakenOut) {
  YamlText t = read(
      "a: {x: 1, y: [2, {z: 3}], w: 4}  # c\nb:\n  u: 1\n  v: {k: 2,\n    l: 3}  # d\n  w: 3\n");
  EXPECT_TRUE(t.remove({"a"}, "y"));
  EXPECT_TRUE(t.remove({"a"}, "w"));
  EXPECT_TRUE(t.remove({"b"}, "v"));
  EXPECT_EQ(t.text(), "a: {x: 1}  # c\nb:\n  u: 1\n  w: 3\n");
  EXPECT_TRUE(t.remove({"a"}, "x"));
  EXPECT_EQ(t.text(), "a: {}  # c\nb:\n  u: 1\n  w: 3\n");
}

TEST(YamlInPlace, PlacesOfListsAreReached) {
  YamlText t = read("l:\n  - {name: a}\n  - name: b\n    length: 2 m\n");
  EXPECT_TRUE(t.set({"l", "0"}, "set", "{x: 1}"));
  EXPECT_TRUE(t.set({"l", "1"}, "each", "{sheet: s}", "name"));
  EXPECT_EQ(t.text(),
            "l:\n  - {name: a, set: {x: 1}}\n  - name: b\n    each: {sheet: s}\n    length: 2 m\n");
}

TEST(YamlInPlace, WhatCannotBeToldIsRefusedAndNothingChanges) {
  const std::string text = "a: >\n  folded\n  text\nb: {c: 1}\nd:\n  e: 1\n";
  YamlText t = read(text);
  EXPECT_FALSE(t.set({}, "a", "x"));
  EXPECT_FALSE(t.set({"b"}, "c", "1, d: 2"));
  EXPECT_FALSE(t.set({"b"}, "c", "[1"));
  EXPECT_FALSE(t.set({"no"}, "c", "1"));
  EXPECT_FALSE(t.set({"b"}, "k: 5, l", "1"));
  EXPECT_FALSE(t.set({"d"}, "k: 5\n  l", "1"));
  EXPECT_FALSE(t.remove({"d"}, "e"));
  EXPECT_FALSE(t.remove({"d"}, "f"));
  EXPECT_EQ(t.text(), text);
}

}  // namespace
}  // namespace sixty::gui
