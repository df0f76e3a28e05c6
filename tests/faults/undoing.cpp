#include "tests/faults/undoing.hpp"

#include <gtest/gtest.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <filesystem>
#include <fstream>
#include <map>
#include <sstream>

#include "sim/scene/injection.hpp"
#include "sim/scene/loader.hpp"
#include "tests/faults/bench_feed.hpp"
#include "tests/faults/observed_run.hpp"

namespace sixty {
namespace {

using explain::Link;
using What = Link::What;

constexpr double kJumperOhm = 1e-3, kOffOhm = 1e12;
constexpr SimTime kIntoDrive = 20 * kMillisecond;  // so long after it began volts are told

/// What a hand can do in a part's stead, whatever it is that the part did not do.
struct HandsDeed {
  const char* type;  ///< of the part that the link tells of
  SimTime before;    ///< the link's instant; or kNever: as soon as the fault is there
  const char* command;
};
constexpr std::array kHandsDeeds{
    // The pendulum let go so that a tooth drops on the second.
    HandsDeed{"movement", 694 * kMillisecond, "movement.start 1.75 deg"},
    HandsDeed{"rewind", 0, "tape.shift 1"},
    HandsDeed{"rewind", kSecond, "rewind.wind"},
    HandsDeed{"tape", kNever, "tape.run"},
    HandsDeed{"tape", 0, "tape.shift 1"},
    HandsDeed{"week_wheel", 0, "week_wheel.advance"},
};

/// Written once by each process: several run tests side by side.
const std::string& path_on_the_bench(const std::string& scene) {
  static std::map<std::string, std::string> paths;
  std::string& path = paths[scene];
  if (!path.empty()) return path;
  const auto folder = std::filesystem::path(testing::TempDir()) / std::to_string(getpid());
  std::filesystem::create_directories(folder);
  path = folder / (scene + ".yaml");
  std::ifstream plain(std::string(SIXTY_SOURCE_DIR) + "/scenes/" + scene + ".yaml");
  std::stringstream text;
  text << plain.rdbuf();
  std::ofstream(path) << with_bench_supply(text.str());
  return path;
}

}  // namespace

std::shared_ptr<const Installation> on_the_bench(const FaultyScene& scene) {
  SceneChanges changes;
  changes.set = scene.set;
  changes.action = scene.hands;
  if (!scene.fault.empty()) changes.fault.push_back(scene.fault);
  Diagnostics diagnostics;
  auto installation = load_scene(path_on_the_bench(scene.name), all_parts(), changes, diagnostics);
  EXPECT_NE(installation, nullptr) << diagnostics.to_text();
  return installation;
}

namespace {

/// Writes the second run of a scene in its several ways.
class Undoer {
 public:
  Undoer(const Link& link, const FaultyScene& scene,
         const std::shared_ptr<const Installation>& faulty, Session& sound,
         const UndoneRun& is_enough)
      : link_(link), scene_(scene), faulty_(faulty), sound_(sound), is_enough_(is_enough) {}

  bool undo() {
    switch (link_.what) {
      case What::kValue:
        add_faulty("value put back", [this](Action& a) { return put_back(a); });
        break;
      case What::kHand:
        add_faulty("hand kept away", [this](Action& a) { return !is_of_hand(a); });
        break;
      case What::kContact:
        link_.expected == 1 ? add_jumpers(0) : add_wires_off(0);
        break;
      case What::kDraws:
        add_wires_off(0);
        break;
      case What::kDrop:
        add_jumpers(0);
        add_feed(link_.expected);
        break;
      case What::kVolts:
        add_feed(link_.expected);
        break;
      case What::kNeed:
        add_feed(1.5 * link_.measured);
        break;
      case What::kReading:
        break;
      default:
        add_jumpers(link_.at);
        add_wires_off(link_.at);
        add_feed(0);
        for (const HandsDeed& deed : kHandsDeeds) add_hands_deed(deed);
    }
    add_sound_part();
    return enough_;
  }

 private:
  /// Shows a run of a scene with more actions, unless one before was enough.
  void show(const std::string& how, const std::shared_ptr<const Installation>& scene,
            const std::vector<Action>& actions) {
    Session run(scene);
    for (const Action& action : actions) EXPECT_TRUE(run.act(action));
    enough_ = is_enough_(how, run);
  }

  const PartInstance& part() const { return faulty_->parts[link_.part]; }

  template <class Keeps>
  void add_faulty(const std::string& how, Keeps&& keeps) {
    std::vector<Action> kept;
    for (Action action : faulty_->script) {
      if (action.added && keeps(action)) kept.push_back(std::move(action));
    }
    show(how, on_the_bench({scene_.name, "", scene_.set, {}}), kept);
  }

  void add_with(const std::string& how, const std::vector<Action>& actions) {
    if (!enough_) show(how, faulty_, actions);
  }

  /// The fault, without what it does to the value that is told.
  bool put_back(Action& action) const {
    if (action.fault == nullptr) return true;
    Fault fault = *action.fault->fault;
    const auto is_told = [&](const FaultChange& c) {
      const std::string& name = fault.kind->declaration.params[c.param].name;
      const auto is_it = [&](const explain::Quantity& q) { return q.name == name; };
      return name == link_.quantity || std::any_of(link_.also.begin(), link_.also.end(), is_it);
    };
    fault.changes.erase(std::remove_if(fault.changes.begin(), fault.changes.end(), is_told),
                        fault.changes.end());
    Injection put = *action.fault;
    put.fault = std::make_shared<const Fault>(fault);
    action.fault = std::make_shared<const Injection>(put);
    return true;
  }

  bool is_of_hand(const Action& action) const {
    return action.hookup == nullptr && action.part == link_.part;
  }

  /// The pairs of terminals between which the part conducts: of its contacts, or its resistor's.
  std::vector<Hookup> ways_through() const {
    std::vector<Hookup> ways;
    const auto add = [&](const std::string& a, const std::string& b) {
      if (part().nodes.count(a) != 0 && part().nodes.count(b) != 0)
        ways.push_back({{link_.part, a}, {link_.part, b}});
    };
    for (const int k : part().contacts) {
      const circuit::Contact& c = faulty_->network->contacts[static_cast<std::size_t>(k)];
      add(terminal_at(part(), c.a), terminal_at(part(), c.b));
    }
    if (ways.empty()) add("a", "b");
    return ways;
  }

  /// Inside a winding nobody can lay one.
  void add_jumpers(SimTime at) {
    if (link_.what == What::kDrop && !part().coils.empty()) return;
    for (Hookup& way : ways_through()) {
      way.resistance_ohm = kJumperOhm;
      add_with("jumper", {lay(way, at)});
    }
  }

  /// Of what leaks, the wire beyond both ends; else the one at its contact, or at one end.
  void add_wires_off(SimTime at) {
    std::vector<Hookup> ways = ways_through();
    const bool leaks = part().nodes.size() == 3 && part().nodes.count("earth") != 0;
    if (leaks) ways = {{{link_.part, "earth"}, {link_.part, "a"}}};
    for (Hookup& way : ways) {
      way.in_series = true;
      way.resistance_ohm = kOffOhm;
      add_with("wire taken off", {lay(way, at)});
    }
  }

  /// Fed for a second, from when it should have been, with those volts at the least.
  void add_feed(double least_v) {
    if (enough_) return;
    std::optional<BenchFeed> feed = feed_like(sound_, link_.part, link_.at);
    if (!feed) return;
    feed->emf_v = std::max(feed->emf_v, least_v);
    const SimTime from = std::max<SimTime>(link_.at - kIntoDrive, 0);
    FaultyScene fed = scene_;
    fed.set.push_back(bench_volts(*feed));
    fed.hands.push_back(key_press(from, kSecond));
    const auto bench = on_the_bench(fed);
    show("fed from the bench", bench, leads_of(*feed, *bench, std::max<SimTime>(from - 1, 0)));
  }

  void add_hands_deed(const HandsDeed& deed) {
    if (enough_ || part().kind->name != deed.type) return;
    FaultyScene helped = scene_;
    const SimTime at = deed.before == kNever ? fault_put() : link_.at - deed.before;
    helped.hands.push_back(std::to_string(std::max<SimTime>(at, 0)) + " ns " + deed.command);
    show("done by hand", on_the_bench(helped), {});
  }

  SimTime fault_put() const {
    for (const Action& put : faulty_->script) {
      if (put.fault != nullptr && !put.clears) return put.at + 1;
    }
    return 0;
  }

  /// The fault is not in the part that the link tells of, for a while about that moment. What one
  /// reads, and what two parts share, hangs on more than one part, and on all that was before.
  void add_sound_part() {
    const bool shared = link_.what == What::kReading || link_.what == What::kCondition ||
                        link_.what == What::kDraws;
    for (const Action& put : faulty_->script) {
      if (put.fault == nullptr || put.clears || (put.part != link_.part && !shared)) continue;
      Action clear = put, again = put;
      clear.clears = true;
      clear.at = shared ? put.at + 1 : std::max<SimTime>(link_.at - kMinute, put.at + 1);
      again.at = std::max(link_.at, clear.at) + kSecond;
      add_with("sound for the moment", {clear, again});
      if (shared) add_with("sound from then on", {clear});
    }
  }

  const Link& link_;
  const FaultyScene& scene_;
  const std::shared_ptr<const Installation>& faulty_;
  Session& sound_;
  const UndoneRun& is_enough_;
  bool enough_ = false;
};

}  // namespace

bool undo(const Link& link, const FaultyScene& scene,
          const std::shared_ptr<const Installation>& faulty, Session& sound,
          const UndoneRun& is_enough) {
  return Undoer(link, scene, faulty, sound, is_enough).undo();
}

}  // namespace sixty
