// What is heard of a run, and what is left out when it goes fast.
#include "gui/sound/ear.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

std::vector<Heard> of_part(const Hearing& hearing, PartId part) {
  std::vector<Heard> found;
  std::copy_if(hearing.heard.begin(), hearing.heard.end(), std::back_inserter(found),
               [&](const Heard& h) { return h.part == part; });
  return found;
}

/// What the movement is heard to do in a second of the scene in which one tooth drops.
Hearing second_with_a_beat(double speed) {
  const auto scene = bench_scene();
  Session session(scene);
  session.seek(10 * kSecond + 600 * kMillisecond);
  Ear ear(*scene);
  ear.run(session, session.now() + kSecond, speed, 1 / speed, nullptr);
  return {ear.hearing().lasts_s, of_part(ear.hearing(), *scene->find_id("movement"))};
}

TEST(Ear, HearsEachBeatAndWhenItDropped) {
  const Hearing hearing = second_with_a_beat(1);
  ASSERT_EQ(hearing.heard.size(), 1u);
  EXPECT_NEAR(hearing.heard[0].after_s, 0.4, 0.01);
  EXPECT_NEAR(hearing.lasts_s, 1, 1e-12);
}

/// Slower, the sound comes later and is not another.
TEST(Ear, AtATenthOfTheSpeedItComesTenTimesLater) {
  const Hearing hearing = second_with_a_beat(0.1);
  ASSERT_EQ(hearing.heard.size(), 1u);
  EXPECT_NEAR(hearing.heard[0].after_s, 4, 0.1);
}

TEST(Ear, ListeningChangesNothing) {
  const auto scene = bench_scene({}, "technical-school");
  Session heard(scene), unheard(scene);
  Ear ear(*scene);
  heard.seek(7 * kHour + 55 * kMinute);
  for (int k = 0; k < 200; ++k)
    ear.run(heard, heard.now() + 100 * kMillisecond, 8, 0.0125, nullptr);
  unheard.run_until(heard.now());
  EXPECT_EQ(heard.state_hash(), unheard.state_hash());
  EXPECT_EQ(heard.events(), unheard.events());
}

TEST(Ear, OfAVoiceOnlyTheLoudestOfAMomentIsHeard) {
  const auto scene = bench_scene();
  Session session(scene);
  session.seek(kMinute);
  Ear ear(*scene);
  ear.run(session, 3 * kMinute, 10, 12, nullptr);
  std::set<std::pair<PartId, std::size_t>> seen;
  for (const Heard& h : ear.hearing().heard)
    EXPECT_TRUE(seen.insert({h.part, h.voice}).second) << h.part;
  EXPECT_TRUE(
      std::is_sorted(ear.hearing().heard.begin(), ear.hearing().heard.end(),
                     [](const Heard& a, const Heard& b) { return a.strength > b.strength; }));
}

TEST(Ear, AFastRunIsThinnedOutAndSofter) {
  const auto scene = bench_scene({}, "technical-school");
  double before = 2;
  for (const double speed : {10.0, 300.0, 10000.0}) {
    Session session(scene);
    session.seek(7 * kHour + 55 * kMinute + 16 * kSecond);
    Ear ear(*scene);
    std::size_t count = 0;
    double loudest = 0;
    for (int k = 0; k < 50; ++k) {
      ear.run(session, session.now() + static_cast<SimTime>(2e7 * speed), speed, 0.02, nullptr);
      count += ear.hearing().heard.size();
      for (const Heard& h : ear.hearing().heard) loudest = std::max(loudest, h.strength);
    }
    EXPECT_LE(count, 40u) << speed;
    EXPECT_GT(count, 5u) << speed;
    EXPECT_LT(loudest, before) << speed;
    before = loudest;
  }
}

TEST(Ear, NothingIsLeftOutAtTrueSpeed) {
  const auto scene = bench_scene({}, "technical-school");
  Session session(scene);
  session.seek(7 * kHour + 55 * kMinute + 16 * kSecond);
  Ear ear(*scene);
  const PartId gong = *scene->find_id("bell_hall");
  const double before = read(session, "bell_hall.strokes");
  std::size_t rung = 0;
  for (int k = 0; k < 100; ++k) {
    ear.run(session, session.now() + 20 * kMillisecond, 1, 0.02, nullptr);
    for (const Heard& h : of_part(ear.hearing(), gong)) rung += h.voice == 0 ? 1 : 0;
  }
  EXPECT_GT(rung, 15u);
  EXPECT_EQ(static_cast<double>(rung), read(session, "bell_hall.strokes") - before);
}

TEST(Ear, ASingleStepIsHeardAtOnce) {
  const auto scene = bench_scene();
  Session session(scene);
  session.seek(5 * kSecond + 50 * kMillisecond);
  Ear ear(*scene);
  std::size_t count = 0;
  for (int k = 0; k < 10; ++k) {
    ear.run(session, session.next_change(), 1, 0, nullptr);
    for (const Heard& h : ear.hearing().heard) EXPECT_EQ(h.after_s, 0);
    count += ear.hearing().heard.size();
  }
  EXPECT_GT(count, 2u);
}

TEST(Voice, AStrokeSoundsInProportionToItsSpeedFromItsLeastOn) {
  const Voice voice{Voice::Kind::kRing, 0, 1000, 1, 0.4, 0.5, 0.2};
  EXPECT_EQ(voice.strength(0.1), 0);
  EXPECT_NEAR(voice.strength(0.25), 0.2, 1e-12);
  EXPECT_NEAR(voice.strength(0.5), 0.4, 1e-12);
  EXPECT_NEAR(voice.strength(50), 0.8, 1e-12);
}

/// Every event that a voice names is one of its part's, and every voice can be made a sound of.
TEST(Voice, PartsVoicesAreOfTheirOwnEvents) {
  const auto scene = bench_scene({}, "technical-school");
  for (const PartInstance& part : scene->parts) {
    for (const Voice& v : part.part->voices()) {
      const auto& d = part.kind->declaration;
      const bool signal = v.event >= kSignalBase && v.event < kSignalBase + d.inputs.size();
      EXPECT_TRUE(signal ||
                  std::any_of(d.events.begin(), d.events.end(),
                              [&](const EventDecl& e) { return e.kind == v.event && e.heard; }))
          << part.name << " " << v.event;
      EXPECT_GT(v.frequency_hz, 20) << part.name;
      EXPECT_GT(v.decay_s, 0) << part.name;
      EXPECT_GT(v.loudness, 0) << part.name;
      EXPECT_LE(v.loudness, 1) << part.name;
    }
  }
}

/// The pitch is the data sheet's, drawn for each within its tolerance.
TEST(Voice, NoTwoGongsAreAlike) {
  const auto scene = bench_scene({}, "technical-school");
  std::set<double> tones;
  for (const PartInstance& part : scene->parts) {
    if (part.kind->name != "bell") continue;
    const std::vector<Voice> voices = part.part->voices();
    ASSERT_EQ(voices[0].kind, Voice::Kind::kRing);
    EXPECT_EQ(voices[0].frequency_hz, part.values.at("gong_tone").number);
    tones.insert(voices[0].frequency_hz);
  }
  EXPECT_EQ(tones.size(), 11u);
}

}  // namespace
}  // namespace sixty::gui
