// A moment of a run, kept in a file: it opens exactly there, or says what does not fit.
#include "gui/keep/moment.hpp"

#include <gmock/gmock.h>

#include <algorithm>

#include "gui/keep/action_text.hpp"
#include "sim/scene/hookup.hpp"
#include "sim/scene/injection.hpp"
#include "tests/cli/folder.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

using testing::HasSubstr;

const std::string kScene = SIXTY_SOURCE_DIR "/scenes/bench-minimal.yaml";

Action hand(const Installation& scene, const std::string& part, const std::string& command,
            SimTime at, double value = 0) {
  Action action;
  action.at = at;
  action.part = scene.find_id(part).value();
  const auto& commands = scene.parts[action.part].kind->declaration.commands;
  action.command = index_of(commands, command);
  action.value = value;
  EXPECT_LT(action.command, commands.size()) << command;
  return action;
}

/// The faults of a window are read by it, so that they are others than a loader's.
Action fault(const Installation& scene, const std::string& text, SimTime at, bool clears = false) {
  Diagnostics diagnostics;
  Mistakes mistakes(diagnostics);
  static const FaultBook book(all_parts(), mistakes);
  const auto read = read_fault({"", text, {}}, scene.blueprint->draft, book, mistakes);
  EXPECT_TRUE(diagnostics.empty()) << diagnostics.to_text();
  Action action = read.at(0);
  action.at = at;
  action.clears = clears;
  return action;
}

Action meter(const Installation& scene, const std::shared_ptr<const Hookup>& laid, SimTime at,
             bool clears) {
  Action action;
  action.at = at;
  action.part = laid->a.part;
  action.hookup = laid;
  action.clears = clears;
  EXPECT_LT(laid->a.part, scene.parts.size());
  return action;
}

class MomentFile : public cli::FolderTest {
 protected:
  std::string save(const Session& session, const std::shared_ptr<const Installation>& scene,
                   const std::vector<std::string>& set = {}) {
    const Moment moment =
        moment_of(scene, kScene, set, session.log(), session.now(), session.state_hash());
    std::string error;
    EXPECT_TRUE(save_moment(moment, path("m.yaml"), error)) << error;
    return get("m.yaml");
  }
  std::optional<Moment> open() {
    mistakes_ = {};
    return open_moment(path("m.yaml"), all_parts(), mistakes_);
  }
  void expect_same(const Session& session) {
    const auto opened = open();
    ASSERT_TRUE(opened) << mistakes_.to_text() << get("m.yaml");
    EXPECT_EQ(opened->at, session.now());
    Session again(opened->installation);
    EXPECT_TRUE(go_to(*opened, again));
    EXPECT_EQ(again.state_hash(), session.state_hash());
    again.run_until(again.now() + 3 * kMinute);
    EXPECT_NE(again.state_hash(), session.state_hash());
  }
  Diagnostics mistakes_;
};

TEST_F(MomentFile, OpensExactlyThereWithAllThatHandsDid) {
  const auto scene = bench_scene();
  Session session(scene);
  session.run_until(kMinute);
  session.act(hand(*scene, "ring_key", "press", session.now()));
  session.run_until(kMinute + 1234567);
  session.act(hand(*scene, "ring_key", "release", session.now()));
  session.act(hand(*scene, "movement", "turn_nut", session.now(), 0.1 / 3));
  session.run_until(8 * kHour + 5 * kMillisecond + 62);
  save(session, scene);
  expect_same(session);
}

TEST_F(MomentFile, OpensWithFaultsPutInChangedAndCleared) {
  const auto scene = bench_scene();
  Session session(scene);
  session.run_until(kMinute);
  session.act(fault(*scene, "minute-contact-film@arm_b:0.333", session.now()));
  session.run_until(3 * kMinute);
  session.act(
      fault(*scene, "minute-contact-film@arm_b:0.9, course=growing over 1h", session.now()));
  session.run_until(kHour);
  save(session, scene);
  expect_same(session);
  session.act(fault(*scene, "minute-contact-film@arm_b", session.now(), true));
  session.run_until(2 * kHour);
  save(session, scene);
  expect_same(session);
}

TEST_F(MomentFile, AFaultOfTheCommandLineGivesWayToTheSameOneOfTheWindow) {
  SceneChanges changes;
  changes.fault = {"minute-contact-film@arm_b:0.2"};
  const auto scene = bench_scene(changes);
  Session session(scene);
  session.run_until(kMinute);
  session.act(fault(*scene, "minute-contact-film@arm_b:0.9", session.now()));
  session.run_until(10 * kMinute);
  save(session, scene);
  expect_same(session);
}

TEST_F(MomentFile, OpensWithMetersLaidOnAndTakenOff) {
  const auto scene = bench_scene();
  Session session(scene);
  Hookup volts;
  volts.a = {scene->find_id("hall_clock").value(), "a"};
  volts.b = {scene->find_id("hall_clock").value(), "b"};
  volts.resistance_ohm = 10e6 / 3;
  Hookup current;
  current.a = {scene->find_id("rewind").value(), "plus"};
  current.in_series = true;
  current.resistance_ohm = 0.1;
  const auto v = std::make_shared<const Hookup>(volts);
  const auto a = std::make_shared<const Hookup>(current);
  session.run_until(kMinute);
  session.act(meter(*scene, v, session.now(), false));
  session.act(meter(*scene, a, session.now(), false));
  session.run_until(5 * kMinute);
  save(session, scene);
  expect_same(session);
  session.act(meter(*scene, v, session.now(), true));
  session.run_until(7 * kMinute);
  save(session, scene);
  expect_same(session);
}

TEST_F(MomentFile, KeepsSeedAndChangedValues) {
  SceneChanges changes;
  changes.seed = 18446744073709551615u;
  changes.set = {"supply.emf=22.5 V"};
  changes.action = {"Mon 00:02 ring_key.press"};
  const auto scene = bench_scene(changes);
  Session session(scene);
  session.run_until(10 * kMinute);
  save(session, scene, changes.set);
  const auto opened = open();
  ASSERT_TRUE(opened) << mistakes_.to_text();
  EXPECT_EQ(opened->installation->seed, 18446744073709551615u);
  EXPECT_EQ(opened->actions.size(), 1u);  // the hand's, and none of the scene's own
  expect_same(session);
}

TEST_F(MomentFile, TellsWhenTheSceneIsNoLongerTheSame) {
  const auto scene = bench_scene();
  Session session(scene);
  session.run_until(kHour);
  const std::string text = save(session, scene);
  std::string other = text;
  const std::size_t at = other.find("seed: 1");
  other.replace(at, 7, "seed: 2");
  put("m.yaml", other);
  const auto opened = open();
  ASSERT_TRUE(opened);
  Session again(opened->installation);
  EXPECT_FALSE(go_to(*opened, again));
}

TEST_F(MomentFile, IsOpenedLikeAScene) {
  const auto scene = bench_scene();
  Session session(scene);
  session.run_until(kHour);
  save(session, scene);
  const auto moment = open_file(path("m.yaml"), all_parts(), {}, mistakes_);
  ASSERT_TRUE(moment) << mistakes_.to_text();
  EXPECT_EQ(moment->at, kHour);
  SceneChanges changes;
  changes.set = {"supply.emf=23 V"};
  EXPECT_FALSE(open_file(path("m.yaml"), all_parts(), changes, mistakes_));
  mistakes_ = {};
  const auto start = open_file(kScene, all_parts(), changes, mistakes_);
  ASSERT_TRUE(start) << mistakes_.to_text();
  EXPECT_EQ(start->at, 0);
  EXPECT_EQ(start->set, changes.set);
  Session again(start->installation);
  EXPECT_TRUE(go_to(*start, again));
  put("bad.yaml", "scene: [");
  EXPECT_FALSE(open_file(path("bad.yaml"), all_parts(), {}, mistakes_));
  EXPECT_EQ(mistakes_.list().at(0).file, path("bad.yaml"));
}

TEST_F(MomentFile, FindsItsSceneWhereverBothAreMoved) {
  std::filesystem::create_directory(path("one"));
  std::filesystem::copy_file(kScene, path("one/scene.yaml"));
  Diagnostics none;
  const auto scene = load_scene(path("one/scene.yaml"), all_parts(), {}, none);
  Session session(scene);
  session.run_until(kMinute);
  std::string error;
  ASSERT_TRUE(save_moment(moment_of(scene, path("one/scene.yaml"), {}, session.log(), session.now(),
                                    session.state_hash()),
                          path("one/m.yaml"), error));
  std::filesystem::rename(path("one"), path("two"));
  const auto opened = open_moment(path("two/m.yaml"), all_parts(), none);
  ASSERT_TRUE(opened) << none.to_text();
  EXPECT_EQ(opened->scene, path("two/scene.yaml"));
}

TEST_F(MomentFile, RefusesWhatDoesNotFitWithItsPlace) {
  const auto scene = bench_scene();
  Session session(scene);
  session.run_until(kMinute);
  const std::string text = save(session, scene, {});
  const auto refused = [&](const std::string& more) {
    put("m.yaml", text + more);
    EXPECT_FALSE(open()) << more;
    EXPECT_EQ(mistakes_.list().at(0).file, path("m.yaml")) << more;
    EXPECT_GT(mistakes_.list().at(0).line, 0) << more;
    return mistakes_.to_text();
  };
  EXPECT_THAT(refused("actions:\n  - at 5s: ring_kay.press\n"), HasSubstr("ring_key"));
  EXPECT_THAT(refused("actions:\n  - at 5s: ring_key.prass\n"), HasSubstr("press"));
  EXPECT_THAT(refused("actions:\n  - at 5s: movement.turn_nut 9 V\n"), HasSubstr("turn"));
  EXPECT_THAT(refused("actions:\n  - at tea: ring_key.press\n"), HasSubstr("expected"));
  EXPECT_THAT(refused("actions:\n  - at 5s: put no-such@arm_b\n"), HasSubstr("no fault"));
  EXPECT_THAT(refused("actions:\n  - at 5s: put minute-contact-film@arm_b:7\n"),
              HasSubstr("out of range"));
  EXPECT_THAT(refused("actions:\n  - at 5s: lay on ring_key.a to ring_key.z, 1 ohm\n"),
              HasSubstr("no terminal"));
  EXPECT_THAT(refused("actions:\n  - at 5s: lay on ring_key.a\n"), HasSubstr("meter"));
  EXPECT_THAT(refused("actions:\n  - at 5s: take off ring_key.a in series, 1 ohm\n"),
              HasSubstr("before"));
  EXPECT_THAT(refused("actions: 5\n"), HasSubstr("list"));
  EXPECT_THAT(refused("set: [supply.emf=900 V]\n"), HasSubstr("out of range"));
  EXPECT_THAT(refused("extra: 5\n"), HasSubstr("extra"));
}

TEST_F(MomentFile, ThatIsDamagedIsRefused) {
  const auto scene = bench_scene();
  Session session(scene);
  const std::string text = save(session, scene);
  for (std::size_t cut = 0; cut + 1 < text.size(); cut += 7) {
    put("m.yaml", text.substr(0, cut));
    if (open()) {
      // Only a hash that is cut short can still be read.
      EXPECT_GT(cut, text.find("state:"));
    } else {
      EXPECT_FALSE(mistakes_.empty()) << cut;
    }
  }
}

/// Every command that takes a quantity, at values that no short text holds.
TEST(ActionText, IsReadBackToTheLastBit) {
  std::size_t tried = 0;
  for (const char* name : {"bench-minimal", "technical-school", "dry-cell-mill", "corner-school"}) {
    const auto scene = bench_scene({}, name);
    Diagnostics diagnostics;
    Mistakes mistakes(diagnostics);
    ActionReader reader(*scene, all_parts(), mistakes);
    for (PartId p = 0; p < scene->parts.size(); ++p) {
      const auto& commands = scene->parts[p].kind->declaration.commands;
      for (std::size_t k = 0; k < commands.size(); ++k) {
        Action action;
        action.at = 987654321012345678;
        action.part = p;
        action.command = k;
        if (commands[k].argument) {
          const ParamDecl& decl = *commands[k].argument;
          action.value = decl.step > 0 || decl.kind != ParamKind::kQuantity
                             ? decl.least
                             : decl.least + (decl.most - decl.least) / 3;
        }
        const std::string text = action_text(action, *scene);
        const auto read = reader.read({"", format_duration(action.at), {}}, {"", text, {}});
        ASSERT_TRUE(read) << text << "\n" << diagnostics.to_text();
        EXPECT_EQ(read->at, action.at);
        EXPECT_EQ(read->part, p);
        EXPECT_EQ(read->command, k) << text;
        EXPECT_EQ(read->value, action.value) << text;
        ++tried;
      }
    }
  }
  EXPECT_GT(tried, 300u);
}

}  // namespace
}  // namespace sixty::gui
