#pragma once

#include <memory>

#include "models/part_list.hpp"
#include "sim/diagnose/self_test.hpp"

namespace sixty::diagnose {

/// A scene's library with few runs, made once for all tests and kept on the disk.
class BenchLibrary {
 public:
  static const BenchLibrary& get();
  const Library& library() const { return *library_; }
  /// The same, with the installations that its cases were run in.
  const Library& with_specimens() const;
  const LibraryPlan& plan() const { return plan_; }
  const Registry& registry() const { return registry_; }
  const CheckBook& checks() const { return checks_; }
  /// The number of a fault at a part.
  std::size_t suspect(const std::string& fault, const std::string& part) const;
  /// One of those installations that no other bench has run.
  Known unused_specimen() const;
  /// What is noticed of a fault in one of them: departures of all signs in all spans.
  std::vector<float> departures_with(const std::string& fault, const std::string& part,
                                     const Manner& manner) const;
  /// An observation as people write it: "at: clock, sign: slow, about: 5".
  Observation observed(const std::string& text) const;
  /// Such observations weighed.
  Ranking ranked(const std::vector<std::string>& texts) const;
  /// What is said of a file of observations with this text, named told.yaml.
  std::string mistakes_in(const std::string& text) const;
  std::vector<Trial> trials(const TrialPlan& plan) const;
  /// Such trials, told by a seed and judged.
  SelfTest tried(const TrialPlan& plan, std::uint64_t seed) const;

 private:
  BenchLibrary();
  Registry registry_ = models::registry();
  Diagnostics diagnostics_;
  Mistakes mistakes_{diagnostics_};
  SignBook signs_{registry_, mistakes_};
  FaultBook faults_{registry_, mistakes_};
  CheckBook checks_{registry_, mistakes_};
  LibraryPlan plan_;
  std::shared_ptr<Library> library_;
};

/// That beliefs add up to one, and the likeliest comes first.
void expect_beliefs(const Ranking& ranking);

}  // namespace sixty::diagnose
