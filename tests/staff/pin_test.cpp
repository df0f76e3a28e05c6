// A PIN is kept as a hash, and whoever tries many has to wait, whatever the clock does meanwhile.
#include "gui/staff/pin.hpp"

#include <gmock/gmock.h>

#include <limits>
#include <sstream>

namespace sixty::gui {
namespace {

using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

constexpr std::int64_t kNow = 1'790'000'000;

/// The hash of 2468, made once, since it takes its time.
const std::string& hash() {
  static const std::string made = hashed_pin("2468");
  return made;
}

/// A gate after so many wrong tries, the last one at `now`, each after the wait before it.
PinGate after_wrong(int tries, std::int64_t& now) {
  PinGate gate;
  for (int i = 0; i < tries; ++i) {
    now += gate.wait_left(now);
    EXPECT_EQ(gate.try_pin(hash(), "", now), PinTry::kWrong);
  }
  return gate;
}

TEST(Pin, IsKnownByItsHashAlone) {
  EXPECT_THAT(hash(), StartsWith("$argon2id$"));
  EXPECT_THAT(hash(), Not(HasSubstr("2468")));
  EXPECT_TRUE(is_pin_hash(hash()));
  EXPECT_TRUE(is_pin(hash(), "2468"));
  EXPECT_FALSE(is_pin(hash(), "2469"));
  EXPECT_NE(hashed_pin("2468"), hash()) << "two displays with one PIN must not show it";
}

TEST(Pin, HasFourToTwelveDigits) {
  for (const char* pin : {"", "123", "1234567890123", "12a4", " 1234", "-123", "12.4"}) {
    EXPECT_NE(pin_mistake(pin), "") << pin;
    EXPECT_EQ(hashed_pin(pin), "") << pin;
    EXPECT_FALSE(is_pin(hash(), pin)) << pin;
  }
  EXPECT_EQ(pin_mistake("0000"), "");
  EXPECT_EQ(pin_mistake("123456789012"), "");
}

TEST(Pin, IsNeverRightWhereTheHashIsNone) {
  const std::string cut = hash().substr(0, hash().size() / 2);
  for (const std::string& none : {std::string(), std::string("2468"), std::string("$argon2id$"),
                                  cut, hash() + std::string(200, 'x')}) {
    EXPECT_FALSE(is_pin_hash(none)) << none;
    EXPECT_FALSE(is_pin(none, "2468")) << none;
  }
}

TEST(PinGate, LetsFiveTriesPassAndThenWaitsTwiceAsLongEachTime) {
  std::int64_t now = kNow;
  PinGate gate = after_wrong(4, now);
  EXPECT_EQ(gate.wait_left(now), 0);
  for (const std::int64_t wait : {30, 60, 120, 240, 480, 960, 1920, 3600, 3600, 3600}) {
    EXPECT_EQ(gate.try_pin(hash(), "", now), PinTry::kWrong);
    EXPECT_EQ(gate.wait_left(now), wait);
    EXPECT_EQ(gate.wait_left(now + wait - 1), 1);
    now += wait;
    EXPECT_EQ(gate.wait_left(now), 0);
  }
}

TEST(PinGate, RefusesTheRightPinWhileItWaits) {
  std::int64_t now = kNow;
  PinGate gate = after_wrong(5, now);
  EXPECT_EQ(gate.try_pin(hash(), "2468", now + 29), PinTry::kWaits);
  EXPECT_EQ(gate.try_pin(hash(), "2468", now + 30), PinTry::kRight);
}

TEST(PinGate, IsAsNewAfterARightTry) {
  std::int64_t now = kNow;
  PinGate gate = after_wrong(7, now);
  now += gate.wait_left(now);
  ASSERT_EQ(gate.try_pin(hash(), "2468", now), PinTry::kRight);
  for (int i = 0; i < 4; ++i) {
    EXPECT_EQ(gate.try_pin(hash(), "", now), PinTry::kWrong);
    EXPECT_EQ(gate.wait_left(now), 0);
  }
}

TEST(PinGate, GoesOnWaitingAfterARestart) {
  std::int64_t now = kNow;
  PinGate gate = after_wrong(6, now);
  EXPECT_EQ(gate.wait_left(now + 10), 50);
  PinGate again = PinGate::from_line(gate.line() + "\n");
  EXPECT_EQ(again, gate);
  EXPECT_EQ(again.wait_left(now + 20), 40);
  EXPECT_EQ(PinGate::from_line(PinGate().line()), PinGate());
  EXPECT_EQ(PinGate::from_line(""), PinGate());
}

TEST(PinGate, IsNotOpenedByADamagedLine) {
  std::int64_t now = kNow;
  const std::string good = after_wrong(6, now).line();
  for (const std::string& line :
       {std::string("x"), good.substr(0, 14), good + " 7", std::string("pin-gate 1 -6 0 5 0"),
        std::string("pin-gate 1 6 -9 5 0"), std::string("pin-gate 1 6 0 5x 0"),
        std::string("pin-gate 1 6 99999 5 0"), std::string("pin-gate 2 0 0 - 0"),
        std::string("pin-gate 1 6 0 9223372036854775807 0"),
        std::string("pin-gate 1 6 0 -9223372036854775808 0")}) {
    PinGate gate = PinGate::from_line(line);
    EXPECT_EQ(gate.wait_left(now), 30) << line;
    EXPECT_EQ(PinGate::from_line(gate.line()).wait_left(now), 30) << line;
    EXPECT_EQ(gate.wait_left(now + 30), 0) << line;
  }
}

// A year back, an hour back, a second back: what was waited counts, and time goes on counting.
TEST(PinGate, NeitherOpensNorLocksForEverWhenTheClockIsSetBack) {
  for (const std::int64_t back : {1, 3600, 365 * 86'400}) {
    std::int64_t now = kNow;
    PinGate gate = after_wrong(6, now);
    ASSERT_EQ(gate.wait_left(now + 20), 40);
    now += 20 - back;
    EXPECT_EQ(gate.wait_left(now), 40) << back;
    for (int i = 0; i < 41; ++i) gate.wait_left(++now);
    EXPECT_EQ(gate.wait_left(now), 0) << back;
  }
}

TEST(PinGate, IsNotOpenedByAClockThatComesBackToTheRightTime) {
  std::int64_t now = kNow;
  PinGate gate = after_wrong(8, now);
  const std::int64_t left = gate.wait_left(now);
  gate.wait_left(now - 86'400);
  EXPECT_EQ(gate.wait_left(now - 86'390), left - 10);
  EXPECT_EQ(gate.wait_left(now + 15), left - 15);

  gate.wait_left(now - 86'400);
  EXPECT_GE(gate.wait_left(now - 200), left - 15) << "a clock that comes back not quite";
}

// A machine whose clock stands in the past for good: long pauses between looks count as well.
TEST(PinGate, OpensAfterItsWaitThoughTheClockStaysInThePast) {
  std::int64_t now = kNow;
  PinGate gate = after_wrong(8, now);
  gate.wait_left(1000);
  EXPECT_EQ(gate.wait_left(1000 + 240), 0);
}

TEST(PinGate, BearsAnyTime) {
  std::int64_t now = kNow;
  PinGate gate = after_wrong(9, now);
  for (const std::int64_t wild :
       {std::numeric_limits<std::int64_t>::min(), std::numeric_limits<std::int64_t>::max(),
        std::int64_t{0}, std::numeric_limits<std::int64_t>::min()}) {
    const std::int64_t left = gate.wait_left(wild);
    EXPECT_GE(left, 0);
    EXPECT_LE(left, PinGate::kLongestWait);
  }
}

TEST(MakePin, PrintsTheLineForTheFile) {
  std::istringstream in("97531\n97531\n");
  std::ostringstream out;
  ASSERT_EQ(make_pin(in, out), 0) << out.str();
  const std::string text = out.str(), head = "\nstaff: {pin: \"";
  const std::size_t at = text.find(head);
  ASSERT_NE(at, std::string::npos) << text;
  const std::size_t begin = at + head.size();
  EXPECT_EQ(text.substr(text.size() - 3), "\"}\n");
  EXPECT_TRUE(is_pin(text.substr(begin, text.size() - 3 - begin), "97531"));
  EXPECT_THAT(text, Not(HasSubstr("97531")));
}

TEST(MakePin, MakesNothingOfWhatCannotBeOne) {
  for (const auto& [typed, told] :
       std::vector<std::pair<std::string, std::string>>{{"97531\n97532\n", "differ"},
                                                        {"97531\n", "differ"},
                                                        {"12\n12\n", "4 to 12 digits"},
                                                        {"secret\nsecret\n", "digits only"},
                                                        {"", "4 to 12 digits"}}) {
    std::istringstream in(typed);
    std::ostringstream out;
    EXPECT_EQ(make_pin(in, out), 1) << typed;
    EXPECT_THAT(out.str(), HasSubstr(told));
    EXPECT_THAT(out.str(), Not(HasSubstr("$argon2id$")));
  }
}

}  // namespace
}  // namespace sixty::gui
