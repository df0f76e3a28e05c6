// What a model takes for granted: each law does what its set says, and the model's own stay as they
// are.
#include "sim/part/assumptions.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "models/movement/escapement.hpp"
#include "models/part_list.hpp"
#include "sim/base/math.hpp"
#include "sim/part/contact_params.hpp"
#include "sim/run/session.hpp"
#include "sim/scene/fault.hpp"
#include "sim/scene/loader.hpp"
#include "sim/scene/other_times.hpp"

namespace sixty {
namespace {

using Shape = FilmLaw::Shape;
constexpr Shape kShapes[] = {Shape::kLogNormal, Shape::kPatchy, Shape::kWeibull};

const Registry& parts() {
  static const Registry all = models::registry();
  return all;
}

std::shared_ptr<const Installation> bench_under(const Assumptions& assumptions) {
  SceneChanges changes;
  changes.assumptions = assumptions;
  Diagnostics diagnostics;
  auto made =
      load_scene(SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml", parts(), changes, diagnostics);
  EXPECT_NE(made, nullptr) << diagnostics.to_text();
  return made;
}

TEST(FilmLawTest, HalfOfTheClosingsHaveLessThanTheMedian) {
  for (const Shape shape : kShapes) {
    EXPECT_NEAR(film_quantile(shape, 0.8, 0.5), 1, 1e-12);
    for (double share = 0.02; share < 0.98; share += 0.01)
      EXPECT_LT(film_quantile(shape, 0.8, share), film_quantile(shape, 0.8, share + 0.01));
  }
}

TEST(FilmLawTest, AWeibullHasTheSpreadOfItsLogarithm) {
  double sum = 0, squares = 0;
  constexpr int kDraws = 200'000;
  for (int k = 0; k < kDraws; ++k) {
    const double ln = std::log(film_quantile(Shape::kWeibull, 0.7, (k + 0.5) / kDraws));
    sum += ln;
    squares += ln * ln;
  }
  const double mean = sum / kDraws;
  EXPECT_NEAR(std::sqrt(squares / kDraws - mean * mean), 0.7, 0.001);
}

TEST(FilmLawTest, InAPatchyOneAQuarterOfTheClosingsIsFarWorseThanTheRest) {
  ContactFilm film(0, 5, 1, Shape::kPatchy);
  EXPECT_LT(film.ohm(0.74), 5 * std::exp(0.5));
  EXPECT_GT(film.ohm(0.76), 5 * std::exp(3.0));
}

ContactFaces dirty(std::int64_t rubs_off_after) {
  ContactFaces faces;
  faces.film_ohm = 8;
  faces.law.rubs_off_after = rubs_off_after;
  faces.film = ContactFilm(0, 8, 0);
  return faces;
}

TEST(FilmLawTest, WorkingRubsItOffHalfByHalfAndLeavesAnEighth) {
  ContactFaces faces = dirty(100);
  const auto after = [&](std::int64_t closings) {
    while (faces.closings < closings - 1) closing_ohm(faces, 0.5);
    return closing_ohm(faces, 0.5);
  };
  EXPECT_EQ(after(99), 8);
  EXPECT_EQ(after(100), 4);
  EXPECT_EQ(after(300), 2);
  EXPECT_EQ(after(700), 1);
  EXPECT_EQ(after(100'000), 1);
  faces.film_ohm = 80;  // it has become dirty anew
  faces.film = ContactFilm(0, 80, 0);
  EXPECT_EQ(closing_ohm(faces, 0.5), 80);
}

TEST(FilmLawTest, OfTheModelItselfNothingIsRubbedOff) {
  ContactFaces faces = dirty(own_assumptions().film.rubs_off_after);
  for (int k = 0; k < 5000; ++k) EXPECT_EQ(closing_ohm(faces, 0.5), 8);
}

models::PendulumValues pendulum(double air_share) {
  models::PendulumValues v;
  v.mass_kg = 5.5;
  v.length_m = 0.994;
  v.q = 6000;
  v.gravity_m_per_s2 = 9.81;
  v.release_rad = kPi / 180;
  v.push_from_rad = 0.5 * kPi / 180;
  v.efficiency = 0.35;
  v.reference_k = v.temperature_k = 293.15;
  v.bob_density = 8500;
  v.air_share = air_share;
  return v;
}

TEST(SwingLawTest, ASwingDiesAwayAsDragBySpeedAndBySquareTogetherHaveIt) {
  // dA/dn = -(a A + b A^2) has A = a A0 e^(-a n)/(a + b A0 (1 - e^(-a n))), A^2 as the energy.
  const models::Beat beat = beat_of(pendulum(0.4), 0);
  const double a = (1 - beat.keep) / 2, b = beat.air_per_root_j / 2;
  models::Swing swing;
  swing.energy_j = energy_of_arc(beat, 3 * kPi / 180);
  const double root0 = std::sqrt(swing.energy_j);
  for (int n = 1; n <= 4000; ++n) {
    models::swing_free(beat, swing);
    const double gone = std::exp(-a * n);
    const double root = a * root0 * gone / (a + b * root0 * (1 - gone));
    if (n % 1000 != 0) continue;
    EXPECT_NEAR(std::sqrt(swing.energy_j), root, 5e-4 * root) << n;
  }
}

TEST(SwingLawTest, AtOneSwingTheAirsShareChangesNothing) {
  const models::Beat own = beat_of(pendulum(0), 0), other = beat_of(pendulum(0.4), 0);
  const double energy = energy_of_arc(own, 1.5 * kPi / 180);
  EXPECT_NEAR(kept_j(other, energy), kept_j(own, energy), 1e-12 * energy);
  EXPECT_LT(kept_j(other, 2 * energy), kept_j(own, 2 * energy));
  EXPECT_GT(kept_j(other, energy / 2), kept_j(own, energy / 2));
}

TEST(OtherTimesTest, AreOfTheSameHalfDayAndNeverTwoTheSame) {
  std::set<int> all;
  for (int minute = 0; minute < 1440; minute += 3) all.insert(minute);
  const auto instead = times_instead(all, {10, 0.2, 0.3, 4}, 1);
  std::set<int> taken;
  std::size_t dropped = 0, added = 0;
  for (const auto& [time, others] : instead) {
    dropped += others.empty();
    added += others.size() > 1;
    for (const int other : others) {
      EXPECT_EQ(other / 720, time / 720) << time;
      EXPECT_TRUE(taken.insert(other).second) << time;
    }
  }
  EXPECT_NEAR(static_cast<double>(dropped) / 480, 0.2, 0.05);
  EXPECT_GT(added, 480 * 0.1);
}

TEST(OtherTimesTest, OneThatIsAddedGivesWayToThoseThatAreThere) {
  std::set<int> all;
  for (int minute = 0; minute < 720; minute += 3) all.insert(minute);
  std::set<int> taken;
  for (const auto& [time, others] : times_instead(all, {0, 0, 1, 3}, 1)) {
    EXPECT_EQ(others.front(), time);
    for (const int other : others) EXPECT_TRUE(taken.insert(other).second) << time;
  }
}

/// Rung, missed and unasked.
std::vector<double> rings_of_a_week(const Assumptions& assumptions) {
  Session session(bench_under(assumptions));
  session.seek(7 * kDay);
  const PartId timetable = *session.installation().find_id("timetable");
  return {session.read(timetable, 0), session.read(timetable, 1), session.read(timetable, 2)};
}

TEST(OtherTimesTest, PaperAndTimetableStayTogether) {
  const auto own = rings_of_a_week(own_assumptions());
  EXPECT_EQ(own, (std::vector<double>{40, 0, 0}));
  const auto variant = rings_of_a_week(variant_assumptions());
  EXPECT_NE(variant[0], 0);
  EXPECT_EQ(variant[1], 0);
  EXPECT_EQ(variant[2], 0);
}

TEST(OtherTimesTest, OfAVariantAreNotTheScenes) {
  const auto times = [](const Assumptions& assumptions) {
    std::vector<std::string> texts;
    const auto bench = bench_under(assumptions);
    for (const auto& record : bench->find("timetable")->values.at("rings").records) {
      for (const auto& field : record) {
        for (const Value& item : field.value.items) texts.push_back(item.text);
      }
    }
    return texts;
  };
  const auto own = times(own_assumptions());
  EXPECT_EQ(own.front(), "08:00");
  EXPECT_NE(times(variant_assumptions()), own);
  EXPECT_NE(times(calibration_assumptions()), own);
  EXPECT_NE(times(calibration_assumptions()), times(variant_assumptions()));
}

TEST(AssumptionsTest, ArmaturesAreBuiltUnderThemAlsoAnewWithAFault) {
  const auto own = bench_under(own_assumptions()), variant = bench_under(variant_assumptions());
  Diagnostics diagnostics;
  const auto anew = rebuild(*variant, {}, {}, diagnostics);
  for (std::size_t k = 0; k < own->network->coils.size(); ++k) {
    const circuit::Armature& a = own->network->coils[k].armature;
    const circuit::Armature& b = variant->network->coils[k].armature;
    EXPECT_EQ(a.stiction, 1);
    EXPECT_EQ(a.viscous_n_s_per_m, 0);
    EXPECT_EQ(b.stiction, variant_assumptions().friction.stiction);
    EXPECT_EQ(b.viscous_n_s_per_m, variant_assumptions().friction.per_m_per_s * b.friction_n);
    EXPECT_EQ(anew->network->coils[k].armature.stiction, b.stiction);
  }
  EXPECT_NE(own->network->hash(), variant->network->hash());
}

TEST(SeverityTest, BeyondTheSheetStaysWithinTheParametersRange) {
  const ParamDecl decl = quantity_field("film", "ohm", 0, 110, "");
  FaultChange change;
  change.mild.number = 10;
  change.severe.number = 100;
  EXPECT_DOUBLE_EQ(changed_value(decl, change, {}, 1).number, 100);
  EXPECT_DOUBLE_EQ(changed_value(decl, change, {}, 1.1).number, 109);
  EXPECT_DOUBLE_EQ(changed_value(decl, change, {}, 1.25).number, 110);
  ParamDecl texts = texts_field("rows", "");
  change.severe.items.resize(4);
  EXPECT_EQ(changed_value(texts, change, {}, 1.25).items.size(), 4u);
  ParamDecl argument = quantity_field("rows", "1", -4, 4, "");
  argument.step = 1;
  FaultAct act;
  act.mild = 1;
  act.severe = 4;
  EXPECT_DOUBLE_EQ(given_value(argument, act, 0.5), 3);
  EXPECT_DOUBLE_EQ(given_value(argument, act, 1.25), 4);
}

}  // namespace
}  // namespace sixty
