#include "sim/run/session.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <set>

#include "sim/base/rng.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty {
namespace {

constexpr SimTime kMorning = 9 * kHour;  // rings, strokes, steps

TEST(SessionTest, TwoRunsGiveTheSameTrace) {
  HashSink a;
  HashSink b;
  for (HashSink* sink : {&a, &b}) {
    Session session(bench_scene());
    session.set_sink(sink);
    session.run_until(kMorning);
  }
  EXPECT_GT(a.count, 10'000u);
  EXPECT_EQ(a.hash, b.hash);
  EXPECT_EQ(a.ids, b.ids);
}

TEST(SessionTest, RunningInSlicesIsRunningAtOnce) {
  Session at_once(bench_scene());
  at_once.run_until(kHour);
  Session sliced(bench_scene());
  for (std::uint64_t n = 0; sliced.now() < kHour; ++n) {
    const auto slice = static_cast<SimTime>(uniform_draw(3, 0, 0, n) * 9e9);
    sliced.run_until(std::min(kHour, sliced.now() + slice));
  }
  EXPECT_EQ(sliced.state_hash(), at_once.state_hash());
}

TEST(SessionTest, TransientsIntegratedAfreshGiveTheSameBytes) {
  HashSink reused;
  HashSink fresh;
  for (const bool reuse : {true, false}) {
    Session::Options options;
    options.reuse_transients = reuse;
    SceneChanges changes;
    changes.action = {"Mon 00:10 ring_key.close", "Mon 00:10:03 ring_key.open"};
    Session session(bench_scene(changes), options);
    HashSink& sink = reuse ? reused : fresh;
    session.set_sink(&sink);
    session.run_until(kHour);
    if (!reuse) {
      EXPECT_GT(session.transients_computed(), 200u);
    }
  }
  EXPECT_EQ(reused.hash, fresh.hash);
  EXPECT_EQ(reused.ids, fresh.ids);
}

TEST(SessionTest, StepsInALoopAreStepsInTheQueue) {
  std::map<std::string, double> loop;
  for (const bool queue : {false, true}) {
    Session::Options options;
    options.queue_each_step = queue;
    Session session(bench_scene(), options);
    session.run_until(kMorning + 1'234'567'891);
    const auto& parts = session.installation().parts;
    for (PartId p = 0; p < parts.size(); ++p) {
      for (std::size_t k = 0; k < parts[p].kind->declaration.readings.size(); ++k) {
        const std::string name = parts[p].name + "." + parts[p].kind->declaration.readings[k].name;
        // The drive is told of its unwinding when the steps are accounted, not at each of them.
        if (name.rfind("rewind.spring_", 0) == 0) continue;
        if (!queue) loop[name] = session.read(p, k);
        EXPECT_EQ(session.read(p, k), loop[name]) << name;
      }
    }
  }
}

TEST(SessionTest, SavedMomentsComeBackExactly) {
  Session session(bench_scene());
  session.run_until(kMorning);
  const auto saved = session.save();
  const std::uint64_t hash = session.state_hash();
  session.run_until(kMorning + kHour);
  const std::uint64_t later = session.state_hash();
  session.restore(saved);
  EXPECT_EQ(session.now(), kMorning);
  EXPECT_EQ(session.state_hash(), hash);
  session.run_until(kMorning + kHour);
  EXPECT_EQ(session.state_hash(), later);
}

TEST(SessionTest, SeekingAnywhereIsARunToThere) {
  for (const std::size_t budget : {std::size_t{8} << 20, std::size_t{60'000}}) {
    Session::Options options;
    options.keyframe_bytes = budget;
    Session seeker(bench_scene(), options);
    seeker.run_until(kDay);
    for (std::uint64_t n = 0; n < 12; ++n) {
      const auto t = static_cast<SimTime>(uniform_draw(5, 0, 0, n) * static_cast<double>(kDay));
      seeker.seek(t);
      Session straight(bench_scene());
      straight.run_until(t);
      EXPECT_EQ(seeker.state_hash(), straight.state_hash()) << "at " << t;
    }
  }
}

TEST(SessionTest, ActionsAreReplayedWhenGoingBack) {
  Session session(bench_scene());
  session.run_until(10 * kMinute);
  const PartInstance* key = session.installation().find("ring_key");
  ASSERT_NE(key, nullptr);
  const auto part = static_cast<PartId>(key - session.installation().parts.data());
  for (const auto& [seconds, command] : {std::pair{0, "close"}, std::pair{4, "open"}}) {
    Action action;
    action.at = session.now() + seconds * kSecond;
    action.part = part;
    const auto& commands = key->kind->declaration.commands;
    for (std::size_t k = 0; k < commands.size(); ++k) {
      if (commands[k].name == command) action.command = k;
    }
    ASSERT_TRUE(session.act(action));
  }
  session.run_until(20 * kMinute);
  const std::uint64_t hash = session.state_hash();
  EXPECT_GT(read(session, "bell.strokes"), 20);
  session.seek(kMinute);
  EXPECT_EQ(read(session, "bell.strokes"), 0);
  session.seek(20 * kMinute);
  EXPECT_EQ(session.state_hash(), hash);
}

TEST(SessionTest, AnActionInThePastIsRefused) {
  Session session(bench_scene());
  session.run_until(kMinute);
  Action action;
  action.at = kMinute - 1;
  EXPECT_FALSE(session.act(action));
}

TEST(SessionTest, LookingChangesNothing) {
  Session looked_at(bench_scene());
  Session alone(bench_scene());
  for (SimTime t = 0; t <= 5 * kMinute; t += 370 * kMillisecond) {
    looked_at.run_until(t);
    for (PartId p = 0; p < looked_at.installation().parts.size(); ++p) {
      const auto& d = looked_at.installation().parts[p].kind->declaration;
      for (std::size_t k = 0; k < d.readings.size(); ++k) looked_at.read(p, k);
    }
    looked_at.report();
  }
  alone.run_until(looked_at.now());
  EXPECT_EQ(looked_at.state_hash(), alone.state_hash());
}

TEST(SessionTest, EveryEventHasACauseThatCameBeforeIt) {
  class CauseSink : public TraceSink {
   public:
    void record(const TraceRecord& r) override {
      EXPECT_TRUE(r.event.cause == kSceneStart || seen.count(r.event.cause) == 1)
          << r.kind << " at " << r.event.at;
      EXPECT_GE(r.event.at, last);
      last = r.event.at;
      seen.insert(r.event.id);
    }
    std::set<EventId> seen;
    SimTime last = 0;
  } sink;
  Session session(bench_scene());
  session.set_sink(&sink);
  session.run_until(30 * kMinute);
  EXPECT_GT(sink.seen.size(), 2000u);  // the full trace tells each beat
}

/// Randomness is keyed by part: another part, even one that comes first, changes nobody's draws.
TEST(SessionTest, AnUnrelatedPartShiftsNobodysChance) {
  std::ifstream file(SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml");
  std::string text((std::istreambuf_iterator<char>(file)), {});
  const std::string parts = "\nparts:\n";
  ASSERT_NE(text.find(parts), std::string::npos);
  text.insert(text.find(parts) + parts.size(), "  stranger: {type: supply, sheet: bench_24v}\n");
  const std::string path = testing::TempDir() + "with-stranger.yaml";
  std::ofstream(path) << text;
  Diagnostics diagnostics;
  const auto with = load_scene(path, all_parts(), {}, diagnostics);
  ASSERT_NE(with, nullptr) << diagnostics.to_text();
  const auto without = bench_scene();
  for (const PartInstance& part : without->parts) {
    const PartInstance* same = with->find(part.name);
    ASSERT_NE(same, nullptr);
    for (const auto& [name, value] : part.values) {
      EXPECT_EQ(value.number, same->values.at(name).number) << part.name << "." << name;
    }
  }
  Session a(with);
  Session b(without);
  const std::pair<int, const char*> closed[] = {
      {6, "arm_a.resistance"}, {16, "ring_timing.resistance"}, {36, "arm_b.resistance"}};
  for (const auto& [second, reading] : closed) {
    for (Session* s : {&a, &b}) s->run_until(kHour + second * kSecond);
    EXPECT_GT(read(a, reading), 0) << reading;
    EXPECT_EQ(read(a, reading), read(b, reading)) << reading;
  }
}

}  // namespace
}  // namespace sixty
