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

TEST(SessionTest, ARunCanBeStoppedBetweenTransientsAndGoOn) {
  Session at_once(bench_scene());
  at_once.run_until(kHour);
  Session stopped(bench_scene());
  SimTime before = -1;
  std::uint64_t asked = 0;
  std::uint64_t stops = 0;
  // Then time has come to an instant, all of whose events are done.
  while (!stopped.run_until(kHour, [&] { return ++asked % 3 == 0; })) {
    EXPECT_LT(before, stopped.now());
    before = stopped.now();
    if (++stops % 100 == 0) {
      Session straight(bench_scene());
      straight.run_until(before);
      ASSERT_EQ(stopped.state_hash(), straight.state_hash()) << before;
    }
  }
  EXPECT_GT(asked, 500u);
  EXPECT_EQ(stopped.now(), kHour);
  EXPECT_EQ(stopped.state_hash(), at_once.state_hash());
}

TEST(SessionTest, ARunThatIsStoppedReportsWhatWasRun) {
  Session session(bench_scene());
  EXPECT_FALSE(session.run_until(kDay, [&] { return session.now() > kHour; }));
  EXPECT_GT(session.now(), kHour);
  EXPECT_LT(session.now(), kHour + 10 * kSecond);
  EXPECT_EQ(read(session, "rewind.strokes"), 61);  // it was in the first one of the new hour
  EXPECT_FALSE(session.report().sections().empty());
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

Action press_of_the_key(const Installation& scene, SimTime at) {
  Action press;
  press.at = at;
  press.part = scene.find_id("ring_key").value();
  const auto& commands = scene.parts[press.part].kind->declaration.commands;
  while (commands[press.command].name != "press") ++press.command;
  return press;
}

/// One run in which the key is pressed. Returns the transients that it computed.
std::size_t ring_in(Session& session, SimTime at, HashSink& sink) {
  const std::size_t before = session.transients_computed();
  session.seek(-1);
  session.replace_log({press_of_the_key(session.installation(), at)});
  session.set_sink(&sink);
  session.run_until(kHour);
  session.set_sink(nullptr);
  return session.transients_computed() - before;
}

TEST(SessionTest, WhatIsKeptIsFoundAgainAndWhatIsForgottenComputedAgain) {
  Session session(bench_scene());
  session.run_until(kHour);
  session.keep_transients();
  HashSink first, again, forgotten, after_another;
  const std::size_t own = ring_in(session, kMinute + 5 * kSecond, first);
  EXPECT_GT(own, 5u);
  EXPECT_EQ(ring_in(session, kMinute + 5 * kSecond, again), 0u);
  session.forget_later_transients();
  EXPECT_EQ(ring_in(session, kMinute + 5 * kSecond, forgotten), own);
  session.forget_later_transients();
  HashSink other;
  ring_in(session, kMinute + 17 * kSecond, other);
  session.forget_later_transients();
  EXPECT_EQ(ring_in(session, kMinute + 5 * kSecond, after_another), own);
  EXPECT_EQ(again.hash, first.hash);
  EXPECT_EQ(forgotten.hash, first.hash);
  EXPECT_EQ(after_another.hash, first.hash);
  EXPECT_NE(other.hash, first.hash);
  session.forget_later_transients();
  session.seek(-1);
  const std::size_t before = session.transients_computed();
  session.replace_log({});
  session.run_until(kHour);
  EXPECT_EQ(session.transients_computed(), before);
}

/// Everything that can be read of a session now.
std::map<std::string, double> readings_of(Session& session) {
  std::map<std::string, double> readings;
  const auto& parts = session.installation().parts;
  for (PartId p = 0; p < parts.size(); ++p) {
    const auto& declared = parts[p].kind->declaration.readings;
    for (std::size_t k = 0; k < declared.size(); ++k) {
      readings[parts[p].name + "." + declared[k].name] = session.read(p, k);
    }
  }
  return readings;
}

// Hands step the clocks and wind the spring at seconds at which nothing rides.
TEST(SessionTest, StepsInALoopAreStepsInTheQueueWheneverTheyAreLookedAt) {
  SceneChanges changes;
  changes.action = {"Mon 00:10:02 step_all_key.close", "Mon 00:10:03 step_all_key.open",
                    "Mon 00:20:28.5 rewind.wind", "Mon 00:30:11 movement.turn_nut 1 turn"};
  Session::Options queue;
  queue.queue_each_step = true;
  Session loop(bench_scene(changes));
  Session queued(bench_scene(changes), queue);
  for (std::uint64_t n = 0; n < 300; ++n) {
    const auto step = static_cast<SimTime>(uniform_draw(8, 0, 0, n) * 16e9);
    for (Session* s : {&loop, &queued}) s->run_until(s->now() + step);
    ASSERT_EQ(readings_of(loop), readings_of(queued)) << loop.now();
  }
  EXPECT_GT(loop.now(), 31 * kMinute);
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

/// However few states are kept, there is one to go back to from before anything happened.
TEST(SessionTest, TheStartCanAlwaysBeGoneBackTo) {
  Session::Options options;
  options.keyframe_bytes = 60'000;
  Session session(bench_scene(), options);
  session.run_until(kDay);
  for (const SimTime t : {SimTime{0}, SimTime{-1}, -5 * kDay}) {
    session.seek(t);
    Session straight(bench_scene());
    straight.seek(std::max<SimTime>(t, -1));
    EXPECT_EQ(session.now(), straight.now());
    EXPECT_EQ(session.state_hash(), straight.state_hash()) << "at " << t;
    session.run_until(kDay);
  }
}

TEST(SessionTest, SavedMomentsAreNoMoreAfterWeeksThanAfterDays) {
  Session session(bench_scene());
  session.run_until(kWeek);
  const std::size_t after_a_week = session.keyframes();
  std::size_t most = 0;
  for (SimTime t = kWeek; t <= 6 * kWeek; t += kDay) {
    session.run_until(t);
    most = std::max(most, session.keyframes());
  }
  EXPECT_GT(after_a_week, 40U);  // else going back would be a long way
  EXPECT_LE(most, 2 * after_a_week);
}

TEST(SessionTest, ALongWayCanBeStoppedAndGoneOnWith) {
  Session session(bench_scene());
  int asked = 0;
  EXPECT_FALSE(session.seek(kDay, [&] { return ++asked > 1000; }));
  EXPECT_LT(session.now(), kDay);
  EXPECT_TRUE(session.seek(kDay, nullptr));
  Session straight(bench_scene());
  straight.run_until(kDay);
  EXPECT_EQ(session.state_hash(), straight.state_hash());
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

/// What is recorded, one text for each, with id and cause.
class ListSink : public TraceSink {
 public:
  explicit ListSink(bool full) : full_(full) {}
  bool full() const override { return full_; }
  void record(const TraceRecord& r) override {
    const bool only_traced = (r.event.id & kTraceOnly) != 0;
    (only_traced ? trace_only : events)
        .push_back({r.event.at, std::to_string(r.event.id) + " < " + std::to_string(r.event.cause) +
                                    ": " + std::string(r.kind) + " " + std::to_string(r.part)});
  }
  using List = std::vector<std::pair<SimTime, std::string>>;
  /// Those from one instant to another.
  static List between(const List& list, SimTime from, SimTime to) {
    List found;
    for (const auto& entry : list) {
      if (entry.first > from && entry.first <= to) found.push_back(entry);
    }
    return found;
  }
  List events, trace_only;

 private:
  bool full_;
};

TEST(SessionTest, ATraceShiftsNoIdNoCountAndNoState) {
  ListSink marks(false);
  ListSink full(true);
  Session untraced(bench_scene());
  Session marked(bench_scene());
  Session traced(bench_scene());
  marked.set_sink(&marks);
  traced.set_sink(&full);
  for (Session* s : {&untraced, &marked, &traced}) s->run_until(kMorning);
  EXPECT_EQ(marks.events, full.events);
  EXPECT_TRUE(marks.trace_only.empty());
  EXPECT_GT(full.trace_only.size(), 9 * 3600u * 8 / 10);  // most of the beats
  for (Session* s : {&marked, &traced}) {
    EXPECT_EQ(s->events(), untraced.events());
    EXPECT_EQ(s->state_hash(), untraced.state_hash());
  }
}

TEST(SessionTest, AReplayTracedFromThereOnShowsTheSameIds) {
  ListSink straight(true);
  Session traced(bench_scene());
  traced.set_sink(&straight);
  traced.run_until(3 * kHour);
  Session untraced(bench_scene());
  const SimTime from = 2 * kHour + 24 * kMinute + 12 * kSecond;  // five beats after one that counts
  untraced.run_until(from);
  const auto saved = untraced.save();

  ListSink later(true);
  untraced.set_sink(&later);
  untraced.run_until(3 * kHour);
  EXPECT_EQ(later.events, ListSink::between(straight.events, from, 3 * kHour));
  EXPECT_EQ(later.trace_only, ListSink::between(straight.trace_only, from, 3 * kHour));
  untraced.set_sink(nullptr);
  untraced.run_until(5 * kHour);

  ListSink replayed(true);  // from the moment kept for the hour
  untraced.set_sink(&replayed);
  untraced.seek(kHour + 20 * kMinute);
  untraced.run_until(2 * kHour);
  EXPECT_EQ(replayed.events, ListSink::between(straight.events, kHour, 2 * kHour));
  EXPECT_EQ(replayed.trace_only, ListSink::between(straight.trace_only, kHour, 2 * kHour));

  ListSink restored(true);
  untraced.restore(saved);
  untraced.set_sink(&restored);
  untraced.run_until(3 * kHour);
  EXPECT_EQ(restored.events, ListSink::between(straight.events, from, 3 * kHour));
  EXPECT_EQ(restored.trace_only, ListSink::between(straight.trace_only, from, 3 * kHour));
}

TEST(SessionTest, EachInstantIsSettledOnceBehindAllThatItShows) {
  class SettledSink : public TraceSink {
   public:
    void record(const TraceRecord& r) override {
      EXPECT_GT(r.event.at, settled_at);
      pending = r.event.at;
    }
    void settled(SimTime at) override {
      EXPECT_GT(at, settled_at);
      EXPECT_TRUE(pending < 0 || pending == at) << pending << " " << at;
      settled_at = at;
      pending = -1;
      ++count;
    }
    SimTime settled_at = -1, pending = -1;
    std::size_t count = 0;
  } sink;
  Session session(bench_scene());
  session.set_sink(&sink);
  session.run_until(10 * kMinute);
  EXPECT_GT(sink.count, 600u);
}

TEST(SessionTest, WhatIsReadIsNeverOlderThanTheLastEvent) {
  class ReadingSink : public TraceSink {
   public:
    explicit ReadingSink(Session& s) : session(s) {}
    void record(const TraceRecord& r) override {
      if (session.installation().parts[r.part].name == "arm_a" && r.kind == "ride_makes") ++made;
      EXPECT_EQ(::sixty::read(session, "arm_a.closings"), made) << r.event.at;
    }
    Session& session;
    double made = 0;
  };
  Session session(bench_scene());
  ReadingSink sink(session);
  session.set_sink(&sink);
  session.run_until(5 * kMinute);
  EXPECT_EQ(sink.made, 5);
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

/// As a hand is taken back: the run is as if it had never been.
TEST(SessionTest, AnotherLogGivesTheRunThatItWouldHaveGiven) {
  const auto scene = bench_scene();
  const Action press = press_of_the_key(*scene, 90 * kSecond + 1);

  Session plain(scene), pressed(scene), changed(scene);
  const std::vector<Action> before = changed.log();
  plain.seek(3 * kHour);
  pressed.seek(90 * kSecond);
  ASSERT_TRUE(pressed.act(press));
  pressed.seek(3 * kHour);
  EXPECT_NE(pressed.state_hash(), plain.state_hash());

  changed.seek(3 * kHour);
  EXPECT_EQ(changed.replace_log(pressed.log()), press.at);
  EXPECT_LT(changed.now(), press.at);
  changed.seek(3 * kHour);
  EXPECT_EQ(changed.state_hash(), pressed.state_hash());
  EXPECT_EQ(changed.replace_log(pressed.log()), kNever);
  EXPECT_EQ(changed.now(), 3 * kHour);
  changed.replace_log(before);
  changed.seek(3 * kHour);
  EXPECT_EQ(changed.state_hash(), plain.state_hash());
}

TEST(SessionTest, ForwardAndBackByKeyframesAreTheStraightRun) {
  Session straight(bench_scene()), jumps(bench_scene());
  jumps.seek(6 * kHour);
  jumps.seek(kMinute);
  jumps.seek(5 * kHour + kSecond);
  straight.run_until(5 * kHour + kSecond);
  EXPECT_EQ(jumps.state_hash(), straight.state_hash());
}

}  // namespace
}  // namespace sixty
