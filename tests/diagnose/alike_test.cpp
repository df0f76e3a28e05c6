// Runs that speak for several suspects: the same fault at other places of a line.
#include "sim/diagnose/alike.hpp"

#include <gtest/gtest.h>

#include <set>

#include "models/part_list.hpp"
#include "sim/diagnose/library.hpp"

namespace sixty::diagnose {
namespace {

class AlikeParts : public testing::Test {
 protected:
  AlikeParts() {
    plan_.path = SIXTY_SOURCE_DIR "/scenes/corner-school.yaml";
    plan_.until = kDay;
    library_ = open_library(plan_, registry_, signs_, faults_, diagnostics_);
    if (library_ == nullptr) throw std::runtime_error(diagnostics_.to_text());
    alike_ = std::make_unique<Alike>(*library_->installation, library_->suspects, library_->signs,
                                     library_->watch.spans());
  }

  const LaidLine& line(const std::string& name) const {
    for (const LaidLine& one : library_->installation->lines) {
      if (one.name == name) return one;
    }
    throw std::runtime_error("no line " + name);
  }
  const std::string& name_of(std::size_t suspect) const {
    return library_->installation->parts[library_->suspects[suspect].part].name;
  }

  Registry registry_ = models::registry();
  Diagnostics diagnostics_;
  Mistakes mistakes_{diagnostics_};
  SignBook signs_{registry_, mistakes_};
  FaultBook faults_{registry_, mistakes_};
  LibraryPlan plan_;
  std::shared_ptr<Library> library_;
  std::unique_ptr<Alike> alike_;
};

TEST_F(AlikeParts, EverySuspectIsOfOneKin) {
  std::set<std::size_t> met;
  for (const Kin& kin : alike_->kin()) {
    for (const std::size_t suspect : kin) {
      EXPECT_TRUE(met.insert(suspect).second) << name_of(suspect);
      EXPECT_EQ(library_->suspects[suspect].fault, library_->suspects[kin.front()].fault);
    }
  }
  EXPECT_EQ(met.size(), library_->suspects.size());
}

TEST_F(AlikeParts, KinStandAtThePlacesOfOneLineInTheirOrder) {
  std::size_t met = 0;
  for (const Kin& kin : alike_->kin()) {
    if (kin.size() == 1) continue;
    ++met;
    std::vector<PartId> parts;
    for (const std::size_t suspect : kin) parts.push_back(library_->suspects[suspect].part);
    bool found = false;
    for (const LaidLine& one : library_->installation->lines) {
      for (std::size_t slot = 0; slot < one.places.front().size(); ++slot) {
        std::vector<PartId> of_line;
        for (const auto& place : one.places) {
          if (slot < place.size()) of_line.push_back(place[slot]);
        }
        found = found || of_line == parts;
      }
    }
    EXPECT_TRUE(found) << name_of(kin.front());
  }
  EXPECT_GT(met, 20u);
}

TEST_F(AlikeParts, RunsAreMadeAtEveryPlaceButTheFirstAndTheLast) {
  const Kin kin{4, 5, 6, 7, 8, 9};
  std::set<std::size_t> made;
  for (std::size_t run = 0; run < 12; ++run) made.insert(Alike::of_run(kin, run));
  EXPECT_EQ(made, (std::set<std::size_t>{5, 6, 7, 8}));
  EXPECT_EQ(Alike::of_run({3}, 5), 3u);
}

/// What anybody notices of the one, read at the other's place, is what is noticed of the other; but
/// for what comes and goes by chance, and a line that is loaded so that just these clocks go.
TEST_F(AlikeParts, ReadElsewhereARunIsLikeOneThatWasMadeThere) {
  plan_.sound = 2;
  find_usual(*library_, plan_, registry_);
  Bench bench(*library_, library_->specimens.front());
  std::size_t compared = 0, clear = 0, differ = 0;
  for (const Kin& kin : alike_->kin()) {
    if (kin.size() < 4) continue;
    const std::size_t from = kin[1], to = kin[kin.size() - 2];
    const Fault& fault = *library_->suspects[from].fault;
    const Manner manner = manners_of(fault, 1, 0, plan_.until, 1, 0).front();
    const std::vector<float> made = bench.departures_with(library_->suspects[to], manner);
    const std::vector<float> run = bench.departures_with(library_->suspects[from], manner);
    const auto elsewhere = alike_->transposed(from, to);
    const Shown read(run, elsewhere.get());
    bool same = true;
    for (std::size_t k = 0; k < library_->signs.size(); ++k) {
      const Sign& sign = *library_->signs[k].sign;
      if (sign.sense == Sense::kMeasured) continue;
      const bool there = clearness(static_cast<double>(made[k]), sign) >= 2;
      same = same && there == (clearness(static_cast<double>(read[k]), sign) >= 2);
      clear += there ? 1 : 0;
    }
    ++compared;
    differ += same ? 0 : 1;
  }
  EXPECT_GE(compared, 15u);
  EXPECT_GT(clear, compared);
  EXPECT_LE(10 * differ, compared + 5);
}

}  // namespace
}  // namespace sixty::diagnose
