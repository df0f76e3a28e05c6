#pragma once

#include <string>
#include <vector>

#include "sim/diagnose/next_check.hpp"
#include "sim/diagnose/ranking.hpp"
#include "sim/diagnose/self_test.hpp"

/// How a diagnosis is told, as text and as JSON.
namespace sixty::cli {

/// How a library came about.
struct LibraryFacts {
  std::size_t simulations = 0;
  double built_s = 0;
  bool reused = false;
};

/// All that is told of one diagnosis.
struct Diagnosis {
  const diagnose::Library& library;
  std::vector<diagnose::Observation> observations;
  diagnose::Ranking ranking;
  std::vector<diagnose::Proposal> next = {}, questions = {};
  LibraryFacts facts = {};
};

/// What a library says that is not whole yet.
std::string provisional_text(const diagnose::Library& so_far,
                             const std::vector<diagnose::Observation>& observations);
std::string diagnosis_text(const Diagnosis& diagnosis);
std::string diagnosis_json(const Diagnosis& diagnosis);
std::string self_test_text(const diagnose::SelfTest& test, const diagnose::Library& library,
                           const diagnose::TrialPlan& plan);
std::string self_test_json(const diagnose::SelfTest& test, const diagnose::Library& library,
                           const diagnose::TrialPlan& plan);

}  // namespace sixty::cli
