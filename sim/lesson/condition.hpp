#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim/lesson/fact.hpp"

namespace sixty::lesson {

/// Something that is to be so in a run: numbers that lie between two.
struct Condition {
  std::vector<Fact> each;  ///< the same at every part that is meant; each is to lie there
  double least = -std::numeric_limits<double>::infinity();
  double most = std::numeric_limits<double>::infinity();
  bool never = false;  ///< no such event comes: there is no number
  SimTime last = 0;    ///< only the end of the span, so long; 0: all of it
};

/// What has become of a condition.
struct Held {
  bool holds = false;
  bool early = false;  ///< less time has gone by than it speaks of
  std::vector<double> values;
};

/// Holds a run against conditions. Order and errors: as values_of().
std::vector<Held> held(const std::vector<Condition>& conditions, Session& session, Span span);

/// Whether there are any, and all hold.
bool all_hold(const std::vector<Held>& all);

/// "floor_1_clock.error: 12 s; at most 1 s is wanted": the first of its numbers that does not lie
/// there, or its first number where all do.
std::string told(const Condition& condition, const Held& held, const Installation& installation);

/// What told() says of the first that does not hold; empty if all do. Order and errors: as
/// values_of().
std::string unmet(const std::vector<Condition>& conditions, Session& session, Span span);

/// Reads one: what keys_of_fact() read, with `above`, `below`, `is` and `within`, or
/// `never: yes`; `at` and the reading's or event's bare name mean every part of a place that has
/// one; `in` is the time at the end of the span that it speaks of. Errors: nothing, reported.
std::optional<Condition> read_condition(const YamlNode& node, const Installation& installation,
                                        TreeReader& reader);
/// A list of them.
std::vector<Condition> read_conditions(const YamlNode& node, const std::string& label,
                                       const Installation& installation, TreeReader& reader);

}  // namespace sixty::lesson
