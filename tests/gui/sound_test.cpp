// What the bench sounds like, checked on the samples: tones, decay, places, and that nothing clips.
#include "gui/sound/sound.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <complex>
#include <future>
#include <thread>

#include "gui/bench/runner.hpp"
#include "tests/session/bench_scene.hpp"

namespace sixty::gui {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kHighest = 0.95 * 32767;

Voice gong(double hz, double decay_s) { return {Voice::Kind::kRing, 0, hz, decay_s, 1}; }

/// Amplitude of a tone in part of a grain, seen through a Hann window.
double tone(const Grain& grain, double hz, double from_s, double lasts_s) {
  const auto from = static_cast<std::size_t>(from_s * kFrameRate);
  const auto count = std::min(static_cast<std::size_t>(lasts_s * kFrameRate), grain.size() - from);
  std::complex<double> sum = 0;
  for (std::size_t k = 0; k < count; ++k) {
    const double share = static_cast<double>(k) / static_cast<double>(count);
    const double window = 1 - std::cos(2 * kPi * share);
    sum += static_cast<double>(grain[from + k]) * window *
           std::polar(1.0, -2 * kPi * hz * static_cast<double>(k) / kFrameRate);
  }
  return std::abs(sum) * 2 / static_cast<double>(count);
}

TEST(Grain, AGongsStrongestToneIsItsOwn) {
  for (const double hz : {420.0, 1350.0, 2900.0}) {
    const auto grain = make_grain(gong(hz, 1.5));
    double best = 0, strongest = 0;
    for (double f = 100; f < 18000; f *= 1.005) {
      const double amplitude = tone(*grain, f, 0, 0.25);
      if (amplitude > strongest) best = f;
      strongest = std::max(strongest, amplitude);
    }
    EXPECT_NEAR(best, hz, 0.01 * hz);
    for (const double overtone : {2.33, 4.10}) {
      EXPECT_GT(tone(*grain, hz * overtone, 0, 0.25), 0.05 * strongest) << overtone;
      EXPECT_LT(tone(*grain, hz * overtone, 0, 0.25), 0.8 * strongest) << overtone;
    }
  }
}

TEST(Grain, AGongFallsToAThousandthInItsTime) {
  for (const double decay_s : {0.5, 1.6, 4.0}) {
    const auto grain = make_grain(gong(1350, decay_s));
    const double apart_s = decay_s * 0.4;
    const double early = tone(*grain, 1350, 0.1 * decay_s, 0.1);
    const double late = tone(*grain, 1350, 0.1 * decay_s + apart_s, 0.1);
    EXPECT_NEAR(std::log(1000) * apart_s / std::log(early / late), decay_s, 0.1 * decay_s);
  }
}

/// Frequency parameter of a free plate with n nodal diameters and no circle. Derived from bending
/// moment and edge force being nothing at the rim of a thin plate, with J and I as solutions.
double plate_parameter(int n) {
  constexpr double kPoisson = 0.33;
  const auto edge = [n](double x) {
    const double j = std::cyl_bessel_j(n, x);
    const double i = std::cyl_bessel_i(n, x);
    const double jd = std::cyl_bessel_j(n - 1, x) - n * j / x;
    const double id = std::cyl_bessel_i(n - 1, x) - n * i / x;
    const double nn = n * n;
    const double moment_j = -x * x * j - (1 - kPoisson) * (x * jd - nn * j);
    const double moment_i = x * x * i - (1 - kPoisson) * (x * id - nn * i);
    const double force_j = -x * x * x * jd - (1 - kPoisson) * nn * (x * jd - j);
    const double force_i = x * x * x * id - (1 - kPoisson) * nn * (x * id - i);
    return (moment_j * force_i - moment_i * force_j) / (i * i);
  };
  double low = 0.5;
  double high = low;
  do {
    low = high;
    high += 0.01;
  } while (edge(low) * edge(high) > 0 && high < 20);
  for (int k = 0; k < 60; ++k) {
    const double middle = (low + high) / 2;
    (edge(low) * edge(middle) > 0 ? low : high) = middle;
  }
  return low * low;
}

TEST(Grain, TheTonesOfAGongAreThoseOfAPlateHeldInItsMiddle) {
  const double lowest = plate_parameter(2);
  EXPECT_NEAR(lowest, 5.253, 0.02);  // Leissa, NASA SP-160, from memory
  for (int n = 2; n <= 5; ++n)
    EXPECT_NEAR(kGongTones[n - 2], plate_parameter(n) / lowest, 0.01 * kGongTones[n - 2]) << n;
}

TEST(Grain, EverySoundBeginsAtOnceAndEndsSoftly) {
  for (const auto kind :
       {Voice::Kind::kTick, Voice::Kind::kClick, Voice::Kind::kThump, Voice::Kind::kRing}) {
    const auto grain = make_grain({kind, 0, 1000, 0.2, 1});
    const auto begin = grain->begin();
    const auto louder = [](float a, float b) { return std::fabs(a) < std::fabs(b); };
    const float first = std::fabs(*std::max_element(begin, begin + kFrameRate / 100, louder));
    EXPECT_GT(first, 0.2F);
    EXPECT_LT(std::fabs(grain->back()), 0.001F);
    for (const float s : *grain) ASSERT_LE(std::fabs(s), 1.0F);
  }
}

std::vector<std::int16_t> mixed(Mixer& mixer, std::size_t frames) {
  std::vector<std::int16_t> samples(2 * frames);
  mixer.mix(samples);
  return samples;
}

int loudest(const std::vector<std::int16_t>& samples) {
  int most = 0;
  for (const std::int16_t s : samples) most = std::max(most, std::abs(static_cast<int>(s)));
  return most;
}

double energy(const std::vector<std::int16_t>& samples, std::size_t side) {
  double sum = 0;
  for (std::size_t k = side; k < samples.size(); k += 2)
    sum += static_cast<double>(samples[k]) * samples[k];
  return sum;
}

TEST(Mixer, NothingClipsHoweverMuchSoundsTogether) {
  std::vector<std::shared_ptr<const Grain>> grains;
  for (const auto kind :
       {Voice::Kind::kTick, Voice::Kind::kClick, Voice::Kind::kThump, Voice::Kind::kRing})
    grains.push_back(make_grain({kind, 0, 440, 0.3, 1}));
  std::uint32_t drawn = 1;
  const auto draw = [&drawn] {
    drawn = drawn * 1664525U + 1013904223U;
    return static_cast<double>(drawn >> 8U) / (1U << 24U);
  };
  for (int round = 0; round < 60; ++round) {
    Mixer mixer;
    const int count = 1 + static_cast<int>(draw() * 400);
    for (int k = 0; k < count; ++k) {
      const auto& grain = grains[static_cast<std::size_t>(draw() * 4)];
      mixer.add(grain, draw() * 2, draw() * 4 - 2, static_cast<std::int64_t>(draw() * 9000));
    }
    EXPECT_LE(mixer.sounding(), Mixer::kMostGrains);
    int most = 0;
    for (int piece = 0; piece < 20; ++piece) most = std::max(most, loudest(mixed(mixer, 700)));
    EXPECT_LE(most, kHighest) << count;
    EXPECT_GT(most, 0) << count;
  }
}

/// What is below the ceiling comes through as it is.
TEST(Mixer, LeavesASingleSoundAsItIs) {
  const auto grain = make_grain(gong(700, 0.3));
  Mixer mixer;
  mixer.add(grain, 0.5, -1, 100);
  const auto samples = mixed(mixer, 4000);
  for (std::size_t k = 0; k < 4000; ++k) {
    const double expected = k < 100 ? 0 : 0.5 * static_cast<double>((*grain)[k - 100]) * 32767;
    ASSERT_NEAR(samples[2 * k], expected, 0.6) << k;
    ASSERT_EQ(samples[2 * k + 1], 0);
  }
}

TEST(Mixer, ASoundIsAsLoudFromWhereverItComes) {
  const auto grain = make_grain(gong(700, 0.2));
  const auto played = [&](double pan) {
    Mixer mixer;
    mixer.add(grain, 0.5, pan, 0);
    return mixed(mixer, 8000);
  };
  const double middle = energy(played(0), 0) + energy(played(0), 1);
  EXPECT_NEAR(energy(played(0), 0) / energy(played(0), 1), 1, 0.01);
  for (const double pan : {-1.0, -0.4, 0.7, 1.0}) {
    const auto samples = played(pan);
    EXPECT_NEAR(energy(samples, 0) + energy(samples, 1), middle, 0.01 * middle);
    EXPECT_EQ(energy(samples, 0) > energy(samples, 1), pan < 0);
  }
}

/// A scene played without a loudspeaker, in pieces of 10 ms of the wall.
class Played {
 public:
  explicit Played(const std::shared_ptr<const Installation>& scene, SimTime from)
      : session_(scene), ear_(*scene) {
    session_.seek(from);
    Stage stage(*scene);
    stage.look(session_);
    sound_ = std::make_unique<Sound>(*scene, stage, Sound::Output::kNone);
    sound_->set_volume(1);
  }
  Sound& sound() { return *sound_; }
  /// Returns the samples of so much of the wall.
  std::vector<std::int16_t> go(double wall_s, double speed = 1) {
    std::vector<std::int16_t> all;
    for (int k = 0; k < static_cast<int>(std::lround(wall_s * 100)); ++k) {
      const auto step = static_cast<SimTime>(1e7 * speed);
      ear_.run(session_, session_.now() + step, speed, 0.01, nullptr);
      sound_->take(ear_.hearing());
      std::vector<std::int16_t> piece(2 * kFrameRate / 100);
      sound_->mix(piece);
      all.insert(all.end(), piece.begin(), piece.end());
    }
    return all;
  }

 private:
  Session session_;
  Ear ear_;
  std::unique_ptr<Sound> sound_;
};

int loudest_between(const std::vector<std::int16_t>& samples, double from_s, double to_s) {
  const auto at = [](double s) { return static_cast<std::ptrdiff_t>(s * kFrameRate) * 2; };
  return loudest({samples.begin() + at(from_s), samples.begin() + at(to_s)});
}

/// The stream is 30 ms behind the run. The beats of this clock drop at the full second.
TEST(Sound, ABeatIsHeardWhenItDrops) {
  Played played(bench_scene(), 10 * kSecond + 500 * kMillisecond);
  const auto samples = played.go(2);
  for (const double beat_s : {0.5, 1.5}) {
    const double dropped_s = beat_s + 0.03;
    EXPECT_EQ(loudest_between(samples, dropped_s - 0.25, dropped_s - 0.02), 0);
    EXPECT_GT(loudest_between(samples, dropped_s - 0.01, dropped_s + 0.02), 3000);
  }
}

TEST(Sound, TheMinutesStrokeIsLouderThanABeat) {
  Played played(bench_scene(), 2 * kSecond + 500 * kMillisecond);
  const auto samples = played.go(3.4);  // it comes at 5 s
  EXPECT_GT(loudest_between(samples, 2.5, 2.8), 2 * loudest_between(samples, 0, 2));
}

TEST(Sound, IsSilentWhenMutedAndSoonAfterwards) {
  Played played(bench_scene(), 4 * kSecond + 500 * kMillisecond);
  played.sound().mute(true);
  EXPECT_EQ(loudest_between(played.go(1.4), 0.02, 1.4), 0);
  played.sound().mute(false);
  EXPECT_GT(loudest(played.go(1.4)), 1000);
  played.sound().set_volume(0);
  EXPECT_EQ(loudest_between(played.go(1.4), 0.02, 1.4), 0);
}

TEST(Sound, ARunnerLetsItsStepsBeHeardUnlessItIsMuted) {
  const auto scene = bench_scene();
  Runner runner(scene, 5 * kSecond + 50 * kMillisecond);
  const auto sound =
      std::make_shared<Sound>(*scene, runner.see_all().picture->stage, Sound::Output::kNone);
  runner.play_on(sound);
  const auto stepped = [&] {
    for (int k = 0; k < 10; ++k) runner.step(true);
    runner.see_all();
    std::vector<std::int16_t> samples(2 * kFrameRate / 5);
    sound->mix(samples);
    return loudest(samples);
  };
  EXPECT_GT(stepped(), 1000);
  runner.jump(5 * kSecond + 50 * kMillisecond);
  sound->mute(true);
  runner.see_all();
  std::vector<std::int16_t> rest(2 * kFrameRate / 2);
  sound->mix(rest);
  EXPECT_EQ(stepped(), 0);
}

TEST(Sound, HushedItBreaksOff) {
  Played played(bench_scene(), 5 * kSecond);
  EXPECT_GT(loudest(played.go(0.12)), 1000);
  played.sound().hush();
  EXPECT_EQ(loudest_between(played.go(0.05), 0.02, 0.05), 0);
}

/// At many speeds: never beyond the full, and no louder for being faster.
TEST(Sound, AFastRunDoesNotRoar) {
  const auto scene = bench_scene({}, "technical-school");
  const auto power = [&](double speed) {
    Played played(scene, 7 * kHour + 54 * kMinute + 58 * kSecond);
    const auto samples = played.go(0.3, speed);
    EXPECT_LE(loudest(samples), kHighest);
    return energy(samples, 0) + energy(samples, 1);
  };
  Played ringing(scene, 7 * kHour + 55 * kMinute + 16 * kSecond);
  const auto samples = ringing.go(0.3);
  EXPECT_LE(loudest(samples), kHighest);
  const double ring = energy(samples, 0) + energy(samples, 1);
  for (const double speed : {60.0, 1000.0, 3600.0, 100000.0})
    EXPECT_LT(power(speed), ring) << speed;
}

/// Of a stream, what one ear hears.
Grain heard_by(const std::vector<std::int16_t>& samples, std::size_t side) {
  Grain channel;
  for (std::size_t k = side; k < samples.size(); k += 2)
    channel.push_back(static_cast<float>(samples[k]) / 32768);
  return channel;
}

/// Beginning of the last bit of sound that is as loud as a stroke. Units: s.
double last_stroke_s(const Grain& channel) {
  constexpr std::size_t kPiece = kFrameRate / 100;
  std::vector<double> power;
  for (std::size_t k = 0; k + kPiece <= channel.size(); k += kPiece) {
    double sum = 0;
    for (std::size_t i = k; i < k + kPiece; ++i)
      sum += std::pow(static_cast<double>(channel[i]), 2);
    power.push_back(sum);
  }
  const double loudest = *std::max_element(power.begin(), power.end());
  std::size_t last = power.size() - 1;
  while (last > 0 && power[last] < 0.3 * loudest) --last;
  return static_cast<double>(last) / 100;
}

/// The whole way: the clapper is driven by the run, the gong's tones come out of the mixer.
TEST(Sound, ABellOfARunHasTheTonesAndTheDecayOfItsDataSheet) {
  const auto scene = bench_scene();
  const auto& values = scene->parts[*scene->find_id("bell")].values;
  const double hz = values.at("gong_tone").number, decay_s = values.at("gong_ring").number;
  Played played(scene, 8 * kHour + 14 * kSecond + 500 * kMillisecond);
  const auto samples = played.go(6.3);  // it rings for 5 s, and dies away until the next beat
  EXPECT_LT(loudest(samples), 32767);
  const Grain channel = heard_by(samples, 0);
  const double from_s = last_stroke_s(channel) + 0.06;
  const double lowest = tone(channel, hz, from_s, 0.1);
  EXPECT_GT(lowest, 0.01);
  for (const double beside : {0.8, 0.9, 1.1, 1.25})
    EXPECT_LT(tone(channel, hz * beside, from_s, 0.1), 0.1 * lowest) << beside;
  const double apart_s = 0.3 * decay_s;
  const double later = tone(channel, hz, from_s + apart_s, 0.1);
  EXPECT_NEAR(std::log(1000) * apart_s / std::log(lowest / later), decay_s, 0.1 * decay_s);
  // Of the gong's higher tones the next one is still there, and between them there is nothing.
  const double next = tone(channel, hz * kGongTones[1], from_s, 0.1);
  EXPECT_LT(next, lowest);
  EXPECT_GT(next, 5 * tone(channel, hz * (kGongTones[1] + 0.5), from_s, 0.1));
}

TEST(Sound, TheCaseIsHeardFromItsPlacesAndTheBuildingFromItsRooms) {
  const auto scene = bench_scene({}, "technical-school");
  Session session(scene);
  Stage stage(*scene);
  stage.look(session);
  const auto pan = [&](const char* name) { return pan_of(*scene->find_id(name), stage); };
  EXPECT_LT(pan("movement"), 0);
  EXPECT_GT(pan("minute_relay"), 0.2);
  EXPECT_LT(pan("clock_201"), pan("clock_204"));
  EXPECT_LT(pan("clock_204"), pan("clock_208"));
  for (PartId p = 0; p < scene->parts.size(); ++p) EXPECT_LE(std::fabs(pan_of(p, stage)), 1);
}

/// In programs of their own, because the library reads its settings once.
class SpeakerDeathTest : public testing::Test {
 protected:
  void SetUp() override { testing::FLAGS_gtest_death_test_style = "threadsafe"; }
};

[[noreturn]] void play_without_device() {
  setenv("ALSOFT_DRIVERS", "alsa", 1);
  setenv("ALSA_CONFIG_PATH", "/dev/null", 1);
  bool silent = true;
  {
    Speaker speaker([&](std::span<std::int16_t>) { silent = false; });
    while (speaker.state() == Speaker::Is::kOpening) std::this_thread::yield();
    silent = silent && speaker.state() == Speaker::Is::kMissing;
  }
  std::_Exit(silent ? 0 : 1);
}

TEST_F(SpeakerDeathTest, WithoutADeviceItIsSilentAndSaysNothing) {
  EXPECT_EXIT(play_without_device(), testing::ExitedWithCode(0), "^$");
}

[[noreturn]] void play_into_nothing() {
  setenv("ALSOFT_DRIVERS", "null", 1);
  std::promise<std::size_t> asked;
  bool first = true;
  Speaker speaker([&](std::span<std::int16_t> samples) {
    std::fill(samples.begin(), samples.end(), std::int16_t{0});
    if (std::exchange(first, false)) asked.set_value(samples.size());
  });
  std::_Exit(asked.get_future().get() > 0 ? 0 : 1);
}

TEST_F(SpeakerDeathTest, ADeviceAsksForSamples) {
  EXPECT_EXIT(play_into_nothing(), testing::ExitedWithCode(0), "^$");
}

}  // namespace
}  // namespace sixty::gui
