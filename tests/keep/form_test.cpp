// The form for an installation of one's own: what it writes is sound, runs right for a day, reads
// back as the same form, and leaves alone what was written by hand.
#include "gui/keep/form.hpp"

#include <gmock/gmock.h>

#include <rapidcheck/gtest.h>
#include <functional>

#include "gui/keep/form_files.hpp"
#include "gui/keep/form_scope.hpp"
#include "gui/keep/form_sum.hpp"
#include "sim/base/rng.hpp"
#include "tests/models/report_rows.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

using testing::HasSubstr;

const Form& form() {
  static const Form own = [] {
    Diagnostics mistakes;
    const FormFiles files = form_files().at(0);
    auto read = Form::read(files.fields, files.scene, files.path, mistakes);
    EXPECT_TRUE(read) << mistakes.to_text();
    return *read;
  }();
  return own;
}

/// A whole number from the first to the last.
using Dice = std::function<int(int, int)>;

std::string one_of(const FormGroup& group, const std::string& field, const Dice& dice) {
  for (const FormField& f : group.fields) {
    if (f.decl.name == field)
      return f.decl.choices.at(
          static_cast<std::size_t>(dice(0, static_cast<int>(f.decl.choices.size()) - 1)));
  }
  ADD_FAILURE() << field;
  return "";
}

const FormGroup& group(const FormGroup& of, const std::string& name) {
  return of.groups.at(index_of(of.groups, name));
}

FormEntry any_stretch(const FormEntry& whole, const std::string& count, int most, int metres,
                      const Dice& dice) {
  FormEntry stretch;
  stretch.fields[count] = std::to_string(dice(1, most));
  stretch.fields["metres"] =
      std::to_string(dice(1, metres)) + "." + std::to_string(dice(1, 9)) + " m";
  const auto& rooms = whole.groups.at("rooms");
  const int room = dice(0, static_cast<int>(rooms.size()));
  stretch.fields["room"] =
      room == 0 ? "" : rooms[static_cast<std::size_t>(room) - 1].fields.at("name");
  return stretch;
}

FormEntry any_line(const FormEntry& whole, const Dice& dice) {
  const FormGroup& loops = group(form().whole(), "loops");
  FormEntry line;
  line.fields["label"] = "floor \"" + std::to_string(dice(0, 9)) + "\": west # wing";
  line.fields["kind"] = one_of(loops, "kind", dice);
  line.fields["run"] = one_of(loops, "run", dice);
  const bool series = line.fields["kind"] == "series";
  if (series) line.fields["back"] = std::to_string(dice(10, 60)) + " m";
  for (int k = dice(1, 2); k > 0; --k)
    line.groups["stretches"].push_back(any_stretch(whole, "clocks", series ? 6 : 10, 12, dice));
  return line;
}

FormEntry any_zone(const FormEntry& whole, const Dice& dice) {
  const FormGroup& zones = group(form().whole(), "zones");
  FormEntry zone;
  zone.fields["days"] = one_of(zones, "days", dice);
  zone.fields["run"] = one_of(zones, "run", dice);
  std::string times;
  for (int k = 0, at = dice(10, 300); k < dice(1, 8) && at < 1440; ++k, at += dice(2, 200))
    times += fmt::format("{}{:02d}:{:02d}", times.empty() ? "" : ", ", at / 60, at % 60);
  zone.fields["times"] = times.empty() ? "09:15" : times;
  zone.groups["bells"] = {any_stretch(whole, "count", 3, 15, dice)};
  return zone;
}

FormEntry any_form(const Dice& dice) {
  FormEntry whole;
  whole.fields["title"] = "School no. " + std::to_string(dice(1, 99)) + ": \"own\"";
  whole.fields["source"] = one_of(form().whole(), "source", dice);
  const std::string source = whole.fields["source"];
  if (source == "rectifier")
    whole.fields["winding"] = std::to_string(dice(195, 215) / 10.0).substr(0, 4) + " V";
  if (source == "lead_acid")
    whole.fields["float_voltage"] = "24." + std::to_string(dice(0, 6)) + " V";
  if (source == "dry_cells") whole.fields["cells"] = std::to_string(dice(16, 17));
  if (source == "supply") whole.fields["emf"] = std::to_string(dice(24, 26)) + " V";
  whole.groups["rooms"];
  for (int k = dice(0, 3); k > 0; --k) {
    FormEntry room;
    room.fields = {{"name", "room_" + std::to_string(k)}, {"floor", std::to_string(dice(-1, 3))}};
    whole.groups["rooms"].push_back(room);
  }
  for (int k = dice(1, 3); k > 0; --k) whole.groups["loops"].push_back(any_line(whole, dice));
  for (int k = dice(1, 4); k > 0; --k) whole.groups["zones"].push_back(any_zone(whole, dice));
  return whole;
}

[[maybe_unused]] Dice dice_of(std::uint64_t seed) {
  return [seed, n = 0u](int least, int most) mutable {
    return least + static_cast<int>(uniform_draw(seed, 7, 1, n++) * (most - least + 1));
  };
}

FormEntry any_form() {
  return any_form([](int least, int most) { return *rc::gen::inRange(least, most + 1); });
}

std::string scene_of(const FormEntry& filled) {
  Diagnostics mistakes;
  const auto scene = form().scene_of(filled, mistakes);
  EXPECT_TRUE(scene) << mistakes.to_text();
  return scene.value_or("");
}

std::shared_ptr<const Installation> load(const std::string& scene) {
  Diagnostics mistakes;
  auto made = load_scene_text(scene, "own.yaml", all_parts(), {}, mistakes);
  EXPECT_NE(made, nullptr) << mistakes.to_text() << scene;
  return made;
}

std::optional<FormEntry> read_back(const std::string& scene) {
  Diagnostics mistakes;
  const auto root = parse_yaml(scene, "own.yaml", mistakes);
  EXPECT_TRUE(root) << mistakes.to_text();
  auto filled = form().read_back(*root, "own.yaml", mistakes);
  EXPECT_TRUE(filled) << mistakes.to_text();
  return filled;
}

TEST(TheForm, AsItIsOfferedMakesASoundScene) {
  EXPECT_EQ(all_forms().size(), form_files().size());
  load(scene_of(Form::fresh(form().whole())));
}

RC_GTEST_PROP(TheForm, WritesASceneThatLoadsAndReadsBackAsTheSameForm, ()) {
  const FormEntry filled = any_form();
  const std::string scene = scene_of(filled);
  RC_ASSERT(load(scene) != nullptr);
  RC_ASSERT(read_back(scene) == filled);
}

RC_GTEST_PROP(TheForm, ChangesASceneIntoWhatItWouldHaveWritten, ()) {
  const FormEntry before = any_form(), after = any_form();
  Diagnostics mistakes;
  const auto changed = form().changed(scene_of(before), "own.yaml", after, mistakes);
  RC_ASSERT(changed == scene_of(after));
}

#ifdef NDEBUG  // minutes, not seconds, without optimisation

void expect_right_day(const FormEntry& filled) {
  const auto scene = load(scene_of(filled));
  ASSERT_NE(scene, nullptr);
  Session session(scene);
  session.run_until(kDay + 50 * kSecond);
  const Report report = session.report();
  int clocks = 0, bells = 0;
  for (const FormEntry& line : filled.groups.at("loops")) {
    for (const FormEntry& s : line.groups.at("stretches"))
      clocks += std::stoi(s.fields.at("clocks"));
  }
  EXPECT_EQ(rows_of(report, "secondaries").size(), static_cast<std::size_t>(clocks));
  for (const Row& clock : rows_of(report, "secondaries")) {
    EXPECT_EQ(count_in(clock, "error_min"), 0) << text_in(clock, "id");
    EXPECT_EQ(count_in(clock, "missed"), 0) << text_in(clock, "id");
  }
  const auto& zones = filled.groups.at("zones");
  ASSERT_EQ(rows_of(report, "zones").size(), zones.size());
  for (std::size_t k = 0; k < zones.size(); ++k) {
    const Row& told = rows_of(report, "zones")[k];
    const bool rests = zones[k].fields.at("days") == "Sat";  // it is a Monday
    const auto times = rests ? 0u : pieces_in(zones[k].fields.at("times")).size();
    EXPECT_EQ(count_in(told, "rung"), static_cast<std::int64_t>(times)) << "zone " << k + 1;
    EXPECT_EQ(count_in(told, "missed"), 0) << "zone " << k + 1;
    EXPECT_EQ(count_in(told, "unasked"), 0) << "zone " << k + 1;
    for (const FormEntry& b : zones[k].groups.at("bells")) bells += std::stoi(b.fields.at("count"));
  }
  EXPECT_EQ(rows_of(report, "bells").size(), static_cast<std::size_t>(bells));
}

TEST(TheForm, MakesInstallationsThatAreRightForADay) {
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    SCOPED_TRACE(seed);
    const FormEntry filled = any_form(dice_of(seed));
    expect_right_day(filled);
    if (testing::Test::HasFailure()) GTEST_FAIL() << scene_of(filled);
  }
}

#endif

TEST(TheForm, LeavesAloneWhatWasWrittenByHand) {
  FormEntry filled = Form::fresh(form().whole());
  std::string scene = scene_of(filled);
  const auto insert = [&](const std::string& before, const std::string& text) {
    scene.insert(scene.find(before), text);
  };
  insert("start: ", "# The caretaker's own remark\n");
  insert("  main_fuse:", "  lamp: {type: resistor, set: {resistance: 500 ohm}}  # by hand\n");
  scene.replace(scene.find("incoming: [source.plus, main_fuse.a]"), 36,
                "incoming: [source.plus, main_fuse.a, lamp.a]");
  insert("  returns:", "  # a lamp shows that there is current\n");
  insert("      - name: clock_1_1_",
         "      - {name: loft_clock, length: 3 m}  # before all others\n");
  scene += "  - at Tue 09:00: ring_key_1.press\n";
  load(scene);
  EXPECT_EQ(read_back(scene), filled);

  filled.fields["emf"] = "25 V";
  filled.fields["source"] = "supply";
  filled.fields.erase("winding");
  filled.groups["zones"].push_back(filled.groups["zones"][0]);
  filled.groups["loops"][0].groups["stretches"][0].fields["clocks"] = "9";
  Diagnostics mistakes;
  const auto changed = form().changed(scene, "own.yaml", filled, mistakes);
  ASSERT_TRUE(changed) << mistakes.to_text();
  for (const char* kept :
       {"# The caretaker's own remark\n", "- {name: loft_clock, length: 3 m}  # before",
        "# by hand\n", "main_fuse.a, lamp.a]", "# a lamp shows that",
        "  - at Tue 09:00: ring_key_1.press\n"})
    EXPECT_THAT(*changed, HasSubstr(kept));
  load(*changed);
  EXPECT_EQ(read_back(*changed), filled);
}

TEST(TheForm, DoesNotOverwriteALineThatWasChangedByHand) {
  FormEntry filled = Form::fresh(form().whole());
  std::string scene = scene_of(filled);
  const std::string line = "        count: 4\n";
  const std::size_t at = scene.find(line);
  scene.replace(at, line.size(), "        count: 5  # one more in the loft\n");
  filled.groups["loops"][0].groups["stretches"][0].fields["clocks"] = "9";
  Diagnostics mistakes;
  const auto changed = form().changed(scene, "own.yaml", filled, mistakes);
  ASSERT_TRUE(changed) << mistakes.to_text();
  EXPECT_THAT(*changed, HasSubstr("        count: 9  # one more in the loft\n"));
  mistakes = {};
  const std::string set = "      set: {conductors: 2}\n";
  scene.replace(scene.find(set), set.size(), "      set: {conductors: 2, joints: 3}\n");
  filled.groups["loops"][0].fields["kind"] = "series";
  filled.groups["loops"][0].fields["back"] = "10 m";
  EXPECT_FALSE(form().changed(scene, "own.yaml", filled, mistakes));
  ASSERT_FALSE(mistakes.empty());
  EXPECT_GT(mistakes.list()[0].line, 10);
  EXPECT_EQ(mistakes.list()[0].file, "own.yaml");
}

TEST(TheForm, SaysOfAnotherSceneWhatItDoesNotFind) {
  Diagnostics mistakes;
  const auto root = read_yaml(SIXTY_SOURCE_DIR "/scenes/corner-school.yaml", mistakes);
  EXPECT_FALSE(form().read_back(*root, "corner-school.yaml", mistakes));
  EXPECT_THAT(mistakes.to_text(), HasSubstr("corner-school.yaml:"));
}

TEST(TheForm, RefusesWhatCannotBe) {
  const auto refused = [](const std::function<void(FormEntry&)>& spoil) {
    FormEntry filled = Form::fresh(form().whole());
    spoil(filled);
    Diagnostics mistakes;
    EXPECT_FALSE(form().scene_of(filled, mistakes));
    return mistakes.to_text();
  };
  EXPECT_THAT(refused([](FormEntry& f) { f.fields["title"] = " "; }), HasSubstr("Name"));
  EXPECT_THAT(refused([](FormEntry& f) { f.fields["source"] = "sun"; }), HasSubstr("sun"));
  EXPECT_THAT(refused([](FormEntry& f) { f.fields["winding"] = "90 V"; }),
              HasSubstr("from 19 V to 22 V"));
  EXPECT_THAT(refused([](FormEntry& f) { f.groups["loops"].clear(); }), HasSubstr("1 to 8"));
  EXPECT_THAT(refused([](FormEntry& f) { f.groups["zones"][0].fields["times"] = "08:00, 8:45"; }),
              HasSubstr("zone 1, Rings at"));
  EXPECT_THAT(refused([](FormEntry& f) { f.groups["zones"][0].fields["times"] = ""; }),
              HasSubstr("zone 1, Rings at"));
  EXPECT_THAT(refused([](FormEntry& f) {
                f.groups["zones"][0].groups["bells"][0].fields["room"] = "attic";
              }),
              HasSubstr("attic"));
  EXPECT_THAT(refused([](FormEntry& f) {
                f.groups["loops"][0].fields["kind"] = "series";
                f.groups["loops"][0].fields["back"] = "20 m";
                f.groups["loops"][0].groups["stretches"][0].fields["clocks"] = "30";
              }),
              HasSubstr("line 1: too many clocks"));
}

TEST(Sums, AreWorkedOut) {
  SumNames names;
  names.number = [](const std::string& name) {
    return name == "x.y" ? std::optional(2.0) : std::nullopt;
  };
  names.over = [](const std::string&, std::string_view) { return std::optional(10.0); };
  EXPECT_EQ(work_out("1 + 2 * 3 - 8 / 4", names), 5);
  EXPECT_EQ(work_out("(1 + x.y) * max(2, 5) - min(1, 2)", names), 14);
  EXPECT_EQ(work_out("sum(all, a * (b + 1)) - 4", names), 6);
  for (const char* bad : {"", "1 +", "(1", "y", "1 / 0", "sum(a", "sqrt(4, 1)", "1 1", "-1", "1e"})
    EXPECT_EQ(work_out(bad, names), std::nullopt) << bad;
  EXPECT_EQ(work_out(std::string(100'000, '('), names), std::nullopt);
}

}  // namespace
}  // namespace sixty::gui
