#include "tests/diagnose/bench_library.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "sim/base/hash.hpp"
#include "sim/diagnose/fingerprint.hpp"
#include "sim/diagnose/library_file.hpp"

namespace sixty::diagnose {

const BenchLibrary& BenchLibrary::get() {
  static const BenchLibrary one;
  return one;
}

BenchLibrary::BenchLibrary() {
  plan_.path = SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml";
  plan_.until = 2 * kDay;  // a Sunday and a day on which the bell rings
  plan_.runs = 480;
  plan_.sound = 4;
  library_ = open_library(plan_, registry_, signs_, faults_, diagnostics_);
  if (library_ == nullptr) throw std::runtime_error(diagnostics_.to_text());
  // Each test is a process of its own: the first one runs the library, the others find it.
  const std::uint64_t key = mix(key_of(*library_, plan_), program_fingerprint());
  const std::string path = testing::TempDir() + fmt::format("bench-{:016x}.library", key);
  if (read_library(*library_, key, path)) return;
  find_usual(*library_, plan_, registry_);
  fill_library(*library_, plan_, {});
  std::string error;
  write_library(*library_, key, path, error);  // if it cannot be kept, the next one runs it again
}

const Library& BenchLibrary::with_specimens() const {
  if (library_->specimens.empty()) find_usual(*library_, plan_, registry_);
  return *library_;
}

std::size_t BenchLibrary::suspect(const std::string& fault, const std::string& part) const {
  for (std::size_t k = 0; k < library_->suspects.size(); ++k) {
    const Suspect& one = library_->suspects[k];
    if (one.fault->number == fault && library_->installation->parts[one.part].name == part)
      return k;
  }
  throw std::runtime_error("no " + fault + " at " + part);
}

Known BenchLibrary::unused_specimen() const {
  Known specimen = with_specimens().specimens.front();
  specimen.session = nullptr;
  return specimen;
}

std::vector<float> BenchLibrary::departures_with(const std::string& fault, const std::string& part,
                                                 const Manner& manner) const {
  const Library& library = with_specimens();
  return Bench(library, library.specimens.front())
      .departures_with(library.suspects[suspect(fault, part)], manner);
}

Observation BenchLibrary::observed(const std::string& text) const {
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const auto root =
      parse_yaml("observations: bench-minimal\nseen:\n  - {" + text + "}\n", "test", diagnostics);
  std::vector<Observation> all;
  if (root)
    all = read_observations(*root, "test", *library_->installation, library_->signs,
                            library_->watch, mistakes);
  if (all.size() != 1) throw std::runtime_error(diagnostics.to_text());
  return all.front();
}

Ranking BenchLibrary::ranked(const std::vector<std::string>& texts) const {
  std::vector<Observation> told;
  for (const std::string& text : texts) told.push_back(observed(text));
  return rank(*library_, told, {});
}

std::string BenchLibrary::mistakes_in(const std::string& text) const {
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  const auto root = parse_yaml(text, "told.yaml", diagnostics);
  if (root)
    read_observations(*root, "told.yaml", *library_->installation, library_->signs, library_->watch,
                      mistakes);
  return diagnostics.to_text();
}

std::vector<Trial> BenchLibrary::trials(const TrialPlan& plan) const {
  return trials_of(*library_, plan_, plan, registry_, {});
}

SelfTest BenchLibrary::tried(const TrialPlan& plan, std::uint64_t seed) const {
  SelfTestPlan test;
  test.seed = seed;
  return self_test(*library_, trials(plan), test, checks_, {});
}

void expect_beliefs(const Ranking& ranking) {
  double sum = ranking.sound + ranking.none_of_these;
  for (const Ranked& one : ranking.ranked) sum += one.probability;
  EXPECT_NEAR(sum, 1, 1e-9);
  for (std::size_t k = 1; k < ranking.ranked.size(); ++k)
    EXPECT_LE(ranking.ranked[k].probability, ranking.ranked[k - 1].probability);
}

}  // namespace sixty::diagnose
